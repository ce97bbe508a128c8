using System.Xml.Linq;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Shelf;

/// <summary>Rooms of the engine that the published page keeps whole, so that JSON finds their members.</summary>
public sealed class RootsTests
{
    /// <summary>Rooms that nothing in the page calls, and of which it reads and writes nothing as JSON.</summary>
    private static readonly string[] NotInThePage =
    [
        "Valvewright.Engine.Audit", "Valvewright.Engine.Balance.Kernel", "Valvewright.Engine.Hydraulics",
        "Valvewright.Engine.Metering", "Valvewright.Engine.Power", "Valvewright.Engine.Storage",
    ];

    [Fact]
    public void Every_room_of_the_engine_is_kept_whole_or_known_to_be_left_out()
    {
        IEnumerable<string> kept = XDocument.Load(Path.Combine(Checkout.Root, "src", "Valvewright.App", "roots.xml"))
            .Descendants("namespace").Select(n => n.Attribute("fullname")!.Value);
        IEnumerable<string> all = typeof(Engine.Plans.Plan).Assembly.GetTypes().Select(t => t.Namespace).OfType<string>()
            .Where(n => n.StartsWith("Valvewright.Engine", StringComparison.Ordinal)).Distinct();
        Assert.Equal(all.Order(), kept.Concat(NotInThePage).Order());
    }

    /// <summary>What the page carries of a site holds nothing of a room that is left out.</summary>
    [Fact]
    public void Nothing_that_a_room_left_out_holds_is_carried()
    {
        HashSet<Type> seen = [];
        PageJsonTests.Walk(typeof(Valvewright.App.Shelf.CarriedSite), seen);
        Assert.DoesNotContain(seen, t => NotInThePage.Contains(t.Namespace));
    }
}
