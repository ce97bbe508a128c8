namespace Valvewright.Planning.Choices;

/// <summary>Run times and start times that are quick to key and easy to read back.</summary>
internal static class RoundTimes
{
    /// <summary>Run times up to an hour are set the profile's own step.</summary>
    private const int LongRunSeconds = 3600;

    private const int StepOfLongRunsSeconds = 5 * 60;
    private const int QuarterMinutes = 15;
    private const int FiveMinutes = 5;

    /// <summary>
    /// The shortest run time of at least so many seconds that is round: a multiple of the profile's step, and above an hour of 5 minutes
    /// too, where the step divides 5 minutes.
    /// </summary>
    /// <param name="seconds">What is needed; 0 or less gives 0.</param>
    /// <param name="stepSeconds">The profile's step of run times.</param>
    public static int Up(double seconds, int stepSeconds)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(stepSeconds);
        int run = Multiple(seconds, stepSeconds);
        return run > LongRunSeconds && StepOfLongRunsSeconds % stepSeconds == 0 ? Multiple(seconds, StepOfLongRunsSeconds) : run;
    }

    /// <summary>
    /// The steps to look for start times in, minutes, coarsest first: quarters of an hour, then 5 minutes, then the profile's own. All are
    /// multiples of the profile's step.
    /// </summary>
    public static IReadOnlyList<int> StartSteps(int profileStepMinutes)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(profileStepMinutes);
        return [.. new[] { Common(QuarterMinutes, profileStepMinutes), Common(FiveMinutes, profileStepMinutes),
            profileStepMinutes }.Distinct()];
    }

    private static int Multiple(double seconds, int step) => Math.Max(0, (int)Math.Ceiling(seconds / step - 1e-9) * step);

    private static int Common(int one, int other)
    {
        int multiple = Math.Max(one, other);
        while (multiple % one != 0 || multiple % other != 0)
        {
            multiple++;
        }

        return multiple;
    }
}
