using Seamwright.Program.Printing;
using Seamwright.Shops;
using Xunit;

namespace Seamwright.EndToEnd.Tests.Printing;

public class PlanPageTests
{
    public static TheoryData<int> Widths => [60, 72, 80, 91, 92, 100, 120, 140];

    [Theory]
    [MemberData(nameof(Widths))]
    public void No_line_is_wider_than_the_page(int width)
    {
        foreach (var answer in new[] { Sample.Answer, Sample.NoPlan })
            Assert.All(Sample.Printed(answer, Screen.File with { Width = width }), line => Assert.InRange(Letters.Width(line), 0, width));
    }

    [Fact]
    public void Plain_output_is_ascii_without_control_codes()
    {
        var lines = Sample.Printed(Sample.Answer, new Screen(100, Colour: false, Unicode: false));

        Assert.All(lines, line => Assert.All(line, c => Assert.InRange(c, ' ', '~')));
    }

    [Fact]
    public void Colours_add_nothing_to_the_words()
    {
        string[] plain = Sample.Printed(Sample.Answer, Screen.File);
        string[] coloured = Sample.Printed(Sample.Answer, Screen.File with { Colour = true });

        string[] stripped = [.. coloured.Select(line => System.Text.RegularExpressions.Regex.Replace(line, "\u001b\\[[0-9;]*m", "").TrimEnd())];

        Assert.Contains(coloured, line => line.Contains('\u001b', StringComparison.Ordinal));
        Assert.Equal(plain, stripped);
    }

    [Fact]
    public void The_first_lines_tell_ready_slot_reserve_cost_and_what_is_waited_for()
    {
        string head = string.Join('\n', Sample.Printed(Sample.Answer, Screen.File).Take(7));

        Assert.Contains("READY FOR PAINT 17:39", head, StringComparison.Ordinal);
        Assert.Contains("paint slot 18:00, reserve 21 min", head, StringComparison.Ordinal);
        Assert.Contains("Total 361.01 CU = labour 296.80 + material 64.21; proven the least possible.", head, StringComparison.Ordinal);
        Assert.Contains("Waits for: Seal J1 (15:40–15:52)", head, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missed_slot_is_told_in_words()
    {
        var late = Sample.Answer with { Recommended = Sample.Plan with { Slot = Sample.At(37, 0), ReadyForPaint = Sample.At(20, 0), ReadyForDelivery = Sample.At(48, 0) } };

        string head = string.Join('\n', Sample.Printed(late, Screen.File).Take(7));

        Assert.Contains("The wanted slot 18:00 is not reached.", head, StringComparison.Ordinal);
        Assert.Contains("8 h after the promise", head, StringComparison.Ordinal);
    }

    [Fact]
    public void A_search_that_was_not_finished_tells_how_far_off_it_may_be()
    {
        var open = Sample.Answer with { Recommended = Sample.Plan with { ProvenOptimal = false, LowerBound = new(324.9045m, "CU") } };

        Assert.Contains(Sample.Printed(open, Screen.File), line => line.Contains("at most 10 % above the least possible", StringComparison.Ordinal));
    }

    [Fact]
    public void Orders_mixes_and_leftovers_carry_their_numbers()
    {
        string text = string.Join('\n', Sample.Printed(Sample.Answer, Screen.File));

        Assert.Contains("1 pack SL2", text, StringComparison.Ordinal);
        Assert.Contains("2 nozzles", text, StringComparison.Ordinal);
        Assert.Contains("100 ml = 80 ml base + 20 ml hardener (104 g + 19.5 g), use by 19:00", text, StringComparison.Ordinal);
        Assert.Contains("235 ml, usable until the end of Tue 12 Jan", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Other_plans_are_told_by_their_difference()
    {
        string text = string.Join('\n', Sample.Printed(Sample.Answer, Screen.File with { Width = 140 }));

        Assert.Contains("The cheapest plan: 250.00 (−111.01), ready for paint Wed 13 Jan 11:00 (+17:21), slot Wed 13 Jan 13:00.", text, StringComparison.Ordinal);
        Assert.Contains("This is also the fastest plan.", text, StringComparison.Ordinal);
        Assert.Contains("Delivery 45.40 buys the slot 18:00 and saves 280.00: without it +286.00, slot Wed 13 Jan 13:00.", text, StringComparison.Ordinal);
        Assert.Contains("without it no slot is reached", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_plan_the_conflicts_stand_there_with_their_places()
    {
        string text = string.Join('\n', Sample.Printed(Sample.NoPlan, Screen.File));

        Assert.Contains("NO PLAN IS POSSIBLE", text, StringComparison.Ordinal);
        Assert.Contains("1 conflict stands in the way.", text, StringComparison.Ordinal);
        Assert.Contains("J1: The maker's procedure forbids PU1 here: no polyurethane.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void An_explanation_gives_each_verdict_with_its_source_and_what_it_would_change()
    {
        string text = string.Join('\n', Sample.Printed(page => Explanation.Write(page, Sample.Input, Sample.Plan.Joints[0]), Screen.File with { Width = 140 }));

        Assert.Contains("The maker's procedure forbids PU1 here: no polyurethane. [maker's procedure]", text, StringComparison.Ordinal);
        Assert.Contains("Ready for paint +0:40 (18:19), cost +12.35, no offered slot is reached. Everything else planned again.", text, StringComparison.Ordinal);
        Assert.Contains("Not possible here.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_in_a_file_cannot_steer_the_terminal()
    {
        var repair = Sample.Input.Repair with { Name = "evil \u001b[2Jname\r\nnext" };

        string[] lines = Sample.Printed(page => PlanPage.Write(page, Sample.Input with { Repair = repair }, Sample.Answer), Screen.File);

        Assert.DoesNotContain(lines, line => line.Any(char.IsControl));
    }

    [Fact]
    public void Us_units_reach_every_table()
    {
        string text = string.Join('\n', Sample.Printed(Sample.Answer, Screen.File, UnitSystem.UsCustomary));

        Assert.Contains("fl oz", text, StringComparison.Ordinal);
        Assert.DoesNotContain(" ml", text, StringComparison.Ordinal);
        Assert.DoesNotContain("°C", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Joints_people_heat_and_cures_each_have_a_row_in_the_timeline()
    {
        string[] lines = Sample.Printed(Sample.Answer, Screen.File);

        foreach (string row in new[] { " technician ", " painter ", " helper ", " lamp ", " MSS J1 " })
            Assert.Contains(lines, line => line.StartsWith(row, StringComparison.Ordinal));
        Assert.Contains(lines, line => line.StartsWith(" MSS J1", StringComparison.Ordinal) && line.Contains("━◆", StringComparison.Ordinal));
    }

    [Fact]
    public void A_row_of_many_joints_is_cut_between_their_names()
    {
        var cure = Sample.Plan.Steps[1] with { Places = [new("J6"), new("J8"), new("J11"), new("J12"), new("J13")] };
        var answer = Sample.Answer with { Recommended = Sample.Plan with { Steps = Sample.Plan.Steps.SetItem(1, cure) } };

        Assert.Contains(Sample.Printed(answer, Screen.File), line => line.StartsWith(" MSS J6 J8 J11 …  ", StringComparison.Ordinal));
    }
}
