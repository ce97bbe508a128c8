namespace Valvewright.Files.Problems;

/// <summary>What the engine says of input that it cannot work with, as people are told it.</summary>
public static class Reason
{
    /// <summary>The sentence, without the name of the parameter that .NET puts behind it.</summary>
    public static string Of(ArgumentException reason)
    {
        ArgumentNullException.ThrowIfNull(reason);
        string parameter = $" (Parameter '{reason.ParamName}')";
        return reason.Message.EndsWith(parameter, StringComparison.Ordinal) ? reason.Message[..^parameter.Length] : reason.Message;
    }
}
