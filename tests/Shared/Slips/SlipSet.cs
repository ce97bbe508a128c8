using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;

namespace Valvewright.Tests.Slips;

/// <summary>Sound and faulty readings of the controllers of the demo sites, from plans that the planner made (kept beside this
/// file).</summary>
internal static class SlipSet
{
    /// <summary>Every controller of every site that has a plan here.</summary>
    public static IReadOnlyList<(Site Site, SiteController Controller, Plan Plan)> Controllers { get; } = [.. Load()];

    /// <summary>As many faulty readings of each kind, with one to three slips each.</summary>
    /// <param name="perKind">How many of each kind.</param>
    /// <param name="slips">How many slips in one.</param>
    /// <param name="seed">Same seed, same set.</param>
    public static IEnumerable<SlipCase> Faulty(int perKind, int slips, int seed)
    {
        Random random = new(seed);
        foreach (FindingKind kind in SlipMaker.Kinds)
        {
            int made = 0;
            for (int tries = 0; made < perKind && tries < perKind * 400; tries++)
            {
                SlipMaker maker = Maker(random);
                if (!maker.Make(kind))
                {
                    continue;
                }

                int more = 1;
                for (int t = 0; more < slips && t < 60; t++)
                {
                    more += maker.Make(SlipMaker.Kinds[random.Next(SlipMaker.Kinds.Count)]) ? 1 : 0;
                }

                if (more == slips)
                {
                    made++;
                    yield return maker.Case(random.Next(2) == 0 ? 0 : 0.3);
                }
            }
        }
    }

    /// <summary>Readings as planned, whole or with parts left out.</summary>
    public static IEnumerable<SlipCase> Sound(int count, int seed)
    {
        Random random = new(seed);
        for (int i = 0; i < count; i++)
        {
            yield return Maker(random).Case(i % 2 == 0 ? 0 : 0.5);
        }
    }

    private static SlipMaker Maker(Random random)
    {
        (Site site, SiteController controller, Plan plan) = Controllers[random.Next(Controllers.Count)];
        LocalDateTime at = new LocalDate(2027, 1, 1).PlusDays(random.Next(365)).At(new LocalTime(random.Next(7, 20), random.Next(60)));
        return new SlipMaker(site, controller, plan, at, random);
    }

    private static IEnumerable<(Site, SiteController, Plan)> Load()
    {
        foreach (string file in Directory.EnumerateFiles(Path.Combine(Checkout.Root, "tests", "Shared", "Slips", "Plans"), "*.json")
            .Order(StringComparer.Ordinal))
        {
            Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", Path.GetFileNameWithoutExtension(file))).Site
                ?? throw new JsonException($"{file} has no survey.");
            Plan plan = (PlanFiles.Read(file).Saved ?? throw new JsonException($"{file} is no plan.")).Plan;
            foreach (SiteController controller in site.Controllers)
            {
                yield return (site, controller, plan);
                if (OnPermittedWeekdays(site, controller, plan) is { } variant)
                {
                    yield return variant;
                }
            }
        }
    }

    /// <summary>
    /// The demo sites restrict hours and dates, not weekdays: the same controller under a rule of four weekdays, its programs keyed to
    /// three of them; null where water then flows past midnight into a forbidden day.
    /// </summary>
    private static (Site, SiteController, Plan)? OnPermittedWeekdays(Site site, SiteController controller, Plan plan)
    {
        if (!controller.Profile.DayRules.Contains(DayRuleKind.DaysOfWeek))
        {
            return null;
        }

        Site ruled = site with
        {
            Supplies = site.Supplies.Select(s => s.Name != controller.Supply ? s : s with
            {
                Permitted = s.Permitted with
                    { Weekdays = [IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Friday, IsoDayOfWeek.Sunday],
                        Parity = DateParity.Any },
            }).ToListOf(),
        };
        DaysOfWeek days = new([IsoDayOfWeek.Wednesday, IsoDayOfWeek.Friday, IsoDayOfWeek.Sunday]);
        Plan keyed = plan with
        {
            Controllers = plan.Controllers.Select(c => c.Controller != controller.Name ? c : c with
            {
                Settings = c.Settings with { Programs = c.Settings.Programs.Select(p => p with { Days = days }).ToListOf() },
            }).ToListOf(),
        };
        Walk walk = new(ruled, controller, keyed, new LocalDateTime(2027, 7, 1, 12, 0));
        return walk.Of(keyed.For(controller.Name).Settings).Outside == false ? (ruled, controller, keyed) : null;
    }
}
