namespace Valvewright.Server.People;

/// <summary>What a member of an organization may do; each role includes those before it.</summary>
public enum MemberRole
{
    /// <summary>Reads everything of the organization's sites.</summary>
    Reader = 1,

    /// <summary>Records visits, readings, traces and photos as well.</summary>
    Technician,

    /// <summary>Changes surveys, weather and plans as well.</summary>
    Planner,

    /// <summary>Invites and removes members as well.</summary>
    Owner,
}
