@echo off
rem Restores, builds and runs every test project. The very last line counts: N passed, N failed, N skipped.
setlocal enabledelayedexpansion
cd /d "%~dp0"
set "logs=%~dp0artifacts\test"
if not exist "%logs%" mkdir "%logs%"
set passed=0
set failed=0
set skipped=0
set status=0

dotnet build Seamwright.slnx -v quiet --nologo > "%logs%\build.log" 2>&1
if errorlevel 1 (
    findstr /r /c:"error " /c:"warning " "%logs%\build.log"
    echo 0 passed, 0 failed, 0 skipped
    exit /b 1
)

for %%p in (Architecture.Tests Seamwright.Core.Tests Seamwright.EndToEnd.Tests Seamwright.Planning.Tests Seamwright.Scheduling.Tests Seamwright.Storage.Tests) do (
    dotnet test --project "tests\%%p\%%p.csproj" --no-build > "%logs%\%%p.log" 2>&1
    if errorlevel 1 (
        set status=1
        type "%logs%\%%p.log"
    )
    set p=0
    set f=0
    set s=0
    for /f "tokens=1,2" %%a in ('findstr /r "succeeded: failed: skipped:" "%logs%\%%p.log"') do (
        if "%%a"=="succeeded:" set p=%%b
        if "%%a"=="failed:" set f=%%b
        if "%%a"=="skipped:" set s=%%b
    )
    if !p!==0 set status=1
    echo %%p: !p! passed, !f! failed, !s! skipped
    set /a passed+=!p!, failed+=!f!, skipped+=!s!
)

if not %failed%==0 set status=1
if %passed%==0 set status=1
echo %passed% passed, %failed% failed, %skipped% skipped
exit /b %status%
