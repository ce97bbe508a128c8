using NodaTime;
using Valvewright.Files.Timelines;

namespace Valvewright.Files.Tests.Timelines;

public sealed class DateRuleTests
{
    private static readonly LocalDate First = new(2028, 1, 1);

    // 400 days from 1 January 2028 are that leap year, January 2029 and three days of February. Odd dates: 7 x 16 + 4 x 15 + 15
    // in the year, 16 and 2 after it: 205; the other 195 are even.
    [Theory]
    [InlineData("every day", 400, "FREQ=DAILY 400")]
    [InlineData("every third", 400, "FREQ=DAILY;INTERVAL=3 134")]
    [InlineData("Mon, Sat", 400, "FREQ=WEEKLY;BYDAY=MO,SA 115")]
    [InlineData("odd", 400, "FREQ=MONTHLY;BYMONTHDAY=1,3,5,7,9,11,13,15,17,19,21,23,25,27,29,31 205")]
    [InlineData("even", 400, "FREQ=MONTHLY;BYMONTHDAY=2,4,6,8,10,12,14,16,18,20,22,24,26,28,30 195")]
    public void One_rule_where_one_is_exact(string days, int span, string expected) =>
        Assert.Equal(expected, Shown(DateRule.Split(Dates(days, span))));

    [Fact]
    public void A_rest_that_no_rule_knows_cuts_the_rule()
    {
        LocalDate[] dates = [.. Dates("every day", 20).Where(d => d.Day != 9)];
        Assert.Equal("FREQ=DAILY 8, FREQ=DAILY 11", Shown(DateRule.Split(dates)));
    }

    [Fact]
    public void Dates_without_a_rule_stand_alone_and_none_is_lost()
    {
        Random random = new(7);
        for (int round = 0; round < 300; round++)
        {
            int sparsity = random.Next(2, 20);
            LocalDate[] dates = [.. Dates("every day", 200).Where(_ => random.Next(sparsity) == 0)];
            DateRule[] rules = [.. DateRule.Split(dates)];
            Assert.Equal(dates, rules.SelectMany(r => r.Dates));
            Assert.All(rules, r => Assert.Equal(r.Parts.Length == 0, r.Dates.Count == 1));
        }
    }

    private static LocalDate[] Dates(string days, int span) =>
    [
        .. Enumerable.Range(0, span).Select(First.PlusDays).Where(d => days switch
        {
            "every day" => true,
            "every third" => Period.DaysBetween(First, d) % 3 == 0,
            "odd" => d.Day % 2 == 1,
            "even" => d.Day % 2 == 0,
            _ => d.DayOfWeek is IsoDayOfWeek.Monday or IsoDayOfWeek.Saturday,
        }),
    ];

    private static string Shown(IEnumerable<DateRule> rules) => string.Join(", ", rules.Select(r => $"{r.Parts} {r.Dates.Count}"));
}
