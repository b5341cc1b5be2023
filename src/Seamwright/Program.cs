using Seamwright.Planning;
using Seamwright.Program.Commands;
using Seamwright.Scheduling;

// The solver loads on the other core while the files are read.
if (args is ["plan", ..])
    _ = SolverWarmUp.Start();
return new CommandLine(Terminal.OfProcess(), RepairPlanner.Answer).Run(args);
