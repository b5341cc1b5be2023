@echo off
rem Runs the program; builds it first where a source differs from the one last built.
setlocal
set "root=%~dp0"
set "built=%root%artifacts\run"
set "program=%built%\program\seamwright.dll"
set "seen=%built%\seen"

if not exist "%program%" goto build
if not exist "%seen%\src" goto build
robocopy "%root%src" "%seen%\src" /MIR /L /XD bin obj /NJH /NJS /NP /NS /NC /NDL /NFL >nul
if errorlevel 1 goto build
robocopy "%root%." "%seen%" Directory.Build.props Directory.Packages.props global.json /L /NJH /NJS /NP /NS /NC /NDL /NFL >nul
if errorlevel 1 goto build
goto run

:build
dotnet --list-sdks 2>nul | findstr /b "10." >nul
if errorlevel 1 (
    echo Seamwright needs the .NET SDK 10, which was not found here. Install it, open a new terminal and try again. 1>&2
    exit /b 2
)
echo Building once... 1>&2
if not exist "%built%" mkdir "%built%"
robocopy "%root%src" "%seen%\src" /MIR /XD bin obj /NJH /NJS /NP /NS /NC /NDL /NFL >nul
robocopy "%root%." "%seen%" Directory.Build.props Directory.Packages.props global.json /NJH /NJS /NP /NS /NC /NDL /NFL >nul
set "publish=dotnet publish "%root%src\Seamwright\Seamwright.csproj" -c Release --artifacts-path "%built%\build" -o "%built%\program" -v quiet --nologo -p:DebugType=none -p:GenerateDocumentationFile=false -p:RunAnalyzers=false"
%publish% -p:PublishReadyToRun=true > "%built%\build.log" 2>&1
if not errorlevel 1 goto run
%publish% > "%built%\build.log" 2>&1
if not errorlevel 1 goto run
findstr "error" "%built%\build.log" 1>&2
echo The program could not be built; the whole log is in %built%\build.log 1>&2
rmdir /s /q "%seen%"
exit /b 3

:run
dotnet "%program%" %*
exit /b %errorlevel%
