using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Planning;

/// <summary>One change to a site that would make a plan possible.</summary>
/// <param name="What">In the person's terms: "30 more minutes of permitted hours, until 6:30".</param>
/// <param name="Size">How much trouble it is, in comparable steps; smaller first.</param>
public abstract record SiteChange(string What, double Size)
{
    /// <summary>The site with the change made.</summary>
    public abstract Site ApplyTo(Site site);
}
