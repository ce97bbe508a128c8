using Valvewright.Engine.Checks;
using Valvewright.Engine.Readings;

namespace Valvewright.Records.Views;

/// <summary>A visit with its photos.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">Its version, the ETag.</param>
/// <param name="Changed">Who changed it last, and when.</param>
/// <param name="Value">What it says.</param>
/// <param name="Photos">Its photos.</param>
public sealed record VisitView(Guid Id, long Version, Stamp Changed, VisitValue Value, ListOf<PhotoView> Photos);

/// <summary>A photo, without its bytes.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">Its version, the ETag.</param>
/// <param name="Type">Its media type.</param>
/// <param name="Bytes">How many bytes it has.</param>
/// <param name="Digest">Digest of its bytes.</param>
public sealed record PhotoView(Guid Id, long Version, string Type, long Bytes, string Digest);

/// <summary>A reading, as understood, and what is wrong with the controller.</summary>
/// <param name="Reading">The record.</param>
/// <param name="Understood">What was read out of its text.</param>
/// <param name="Doubts">What could mean two things, or nothing.</param>
/// <param name="Plan">The plan that it was compared with; null where it was judged alone.</param>
/// <param name="Result">What is wrong, and what to ask next; null where the survey has no such controller.</param>
public sealed record CheckView(RecordView<ReadingValue> Reading, Reading Understood, ListOf<Doubt> Doubts, Guid? Plan, CheckResult? Result);
