namespace Valvewright.Engine.Readings.Spoken;

/// <summary>What a word can mean in a reading. A word may have several of these.</summary>
internal enum Sense
{
    /// <summary>"program".</summary>
    Program,

    /// <summary>"start", "begins".</summary>
    Start,

    /// <summary>"station", "zone".</summary>
    Station,

    /// <summary>"run", "run times".</summary>
    Run,

    /// <summary>"day", "dates".</summary>
    Day,

    /// <summary>"percent", "%".</summary>
    Percent,

    /// <summary>"season", "budget", "adjust": what carries a percent.</summary>
    Adjust,

    /// <summary>"clock".</summary>
    Clock,

    /// <summary>"time", "hora": of a start, or of the clock.</summary>
    Time,

    /// <summary>"says", "shows".</summary>
    Says,

    /// <summary>"now".</summary>
    Now,

    /// <summary>"controller".</summary>
    Controller,

    /// <summary>"it", "everything": the controller as a whole.</summary>
    Whole,

    /// <summary>"off".</summary>
    Off,

    /// <summary>"on", "automatic".</summary>
    On,

    /// <summary>"rain".</summary>
    Rain,

    /// <summary>"hold", "delay".</summary>
    Hold,

    /// <summary>"none", "empty".</summary>
    None,

    /// <summary>"not", "doesn't".</summary>
    Not,

    /// <summary>"used", after "not".</summary>
    Used,

    /// <summary>"every".</summary>
    Every,

    /// <summary>"all".</summary>
    All,

    /// <summary>"each", after a run time.</summary>
    Each,

    /// <summary>"other" in "every other day".</summary>
    Other,

    /// <summary>"odd".</summary>
    Odd,

    /// <summary>"even".</summary>
    Even,

    /// <summary>"daily".</summary>
    Daily,

    /// <summary>"left", after a number.</summary>
    Left,

    /// <summary>"next".</summary>
    Next,

    /// <summary>"interval".</summary>
    Interval,

    /// <summary>"weekdays".</summary>
    Weekdays,

    /// <summary>"weekend".</summary>
    Weekend,

    /// <summary>"week", in "days of the week".</summary>
    Week,

    /// <summary>"except".</summary>
    Except,

    /// <summary>"to" in "Monday to Friday".</summary>
    Through,

    /// <summary>"am".</summary>
    Am,

    /// <summary>"pm", "afternoon".</summary>
    Pm,

    /// <summary>"night".</summary>
    Night,

    /// <summary>"noon".</summary>
    Noon,

    /// <summary>"midnight".</summary>
    Midnight,

    /// <summary>"minutes".</summary>
    Minute,

    /// <summary>"hours".</summary>
    Hour,

    /// <summary>"seconds".</summary>
    Second,

    /// <summary>"half".</summary>
    Half,

    /// <summary>"quarter".</summary>
    Quarter,

    /// <summary>"past".</summary>
    Past,

    /// <summary>"to", "before" an hour.</summary>
    Before,

    /// <summary>"o'clock".</summary>
    Oclock,

    /// <summary>"and".</summary>
    And,

    /// <summary>"a", "the".</summary>
    Article,

    /// <summary>"on", "in", "for": what is before a program or a station.</summary>
    Of,

    /// <summary>"at".</summary>
    At,

    /// <summary>"is", "has".</summary>
    Is,

    /// <summary>"yes".</summary>
    Yes,

    /// <summary>"maybe", "thinks": what follows is not certain.</summary>
    Hedge,

    /// <summary>"sorry", "wait": what went before is taken back.</summary>
    Correction,

    /// <summary>A word that says nothing.</summary>
    Filler,
}
