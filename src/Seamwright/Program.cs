using Seamwright.Planning;
using Seamwright.Program.Commands;

return new CommandLine(Terminal.OfProcess(), RepairPlanner.Answer).Run(args);
