using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Valvewright.Engine.Values;
using Valvewright.Records.Jobs;
using Valvewright.Store.Files;
using Valvewright.Store.Rows;

namespace Valvewright.Store;

public sealed partial class SiteStore
{
    /// <summary>How programs that share the work find each other: the database, with its password; null where the store is a file, which
    /// one program has for itself. Never to be shown.</summary>
    public string? SharedDatabase => (place as PostgresPlace)?.Connection;

    /// <summary>Keeps long work to be done.</summary>
    public JobTaking AddJob(KeptJob job, JobLimits limits)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(limits);
        return Write(context =>
        {
            if (context.Jobs.Count(j => j.Ended == null) >= limits.MostOpen)
            {
                return JobTaking.TooMany;
            }

            if (context.Jobs.Count(j => j.Ended == null && j.SiteId == job.Site) >= limits.MostOpenOfASite)
            {
                return JobTaking.TooManyOfSite;
            }

            int over = context.Jobs.Count() + 1 - limits.MostKept;
            if (over > 0)
            {
                Guid[] oldest = [.. context.Jobs.Where(j => j.Ended != null).Select(j => new { j.Id, j.Asked }).AsEnumerable()
                    .OrderBy(j => j.Asked).ThenBy(j => j.Id.ToString("D"), StringComparer.Ordinal).Take(over).Select(j => j.Id)];
                context.Jobs.Where(j => oldest.Contains(j.Id)).ExecuteDelete();
            }

            context.Jobs.Add(new JobRow
                { Id = job.Id, SiteId = job.Site, Kind = job.Kind, Request = job.Request, Asked = job.Asked, State = JobState.Waiting });
            return JobTaking.Taken;
        });
    }

    /// <summary>A job; null where there is none.</summary>
    public KeptJob? Job(Guid id)
    {
        using StoreContext context = Context();
        return context.Jobs.AsNoTracking().SingleOrDefault(j => j.Id == id) is { } row ? Kept(row) : null;
    }

    /// <summary>All jobs, the latest first, without their results.</summary>
    public ListOf<KeptJob> Jobs()
    {
        using StoreContext context = Context();
        return context.Jobs.AsNoTracking().Select(j => new KeptJob(
                j.Id, j.SiteId, j.Kind, "", j.Asked, j.State, j.Ended, null, j.Problem) { Begun = j.Begun }).AsEnumerable()
            .OrderByDescending(j => j.Asked).ThenByDescending(j => j.Id.ToString("D"), StringComparer.Ordinal).ToListOf();
    }

    /// <summary>Jobs that have not ended, those asked for first first.</summary>
    public ListOf<Guid> OpenJobs()
    {
        using StoreContext context = Context();
        return context.Jobs.AsNoTracking().Where(j => j.Ended == null).Select(j => new { j.Id, j.Asked }).AsEnumerable()
            .OrderBy(j => j.Asked).ThenBy(j => j.Id.ToString("D"), StringComparer.Ordinal).Select(j => j.Id).ToListOf();
    }

    /// <summary>Counts that the work is begun.</summary>
    /// <returns>The job; null where there is none, or it has ended.</returns>
    public KeptJob? BeginJob(Guid id) => Write(context =>
    {
        JobRow? row = context.Jobs.SingleOrDefault(j => j.Id == id && j.Ended == null);
        if (row is null)
        {
            return null;
        }

        row.Begun++;
        return Kept(row);
    });

    /// <summary>
    /// Writes what came of a job, together with the record that it made, in one transaction. Of several who did the same work the first
    /// counts; what the others found is dropped.
    /// </summary>
    /// <param name="ended">The job as it ended.</param>
    /// <param name="made">The record that it made; null for none.</param>
    public JobWriting EndJob(KeptJob ended, Change? made = null)
    {
        ArgumentNullException.ThrowIfNull(ended);
        lock (turn)
        {
            using StoreContext context = Context();
            using IDbContextTransaction transaction = place.BeginWriting(context);
            int written = context.Jobs.Where(j => j.Id == ended.Id && j.Ended == null).ExecuteUpdate(set => set
                .SetProperty(j => j.State, ended.State).SetProperty(j => j.Ended, ended.Ended)
                .SetProperty(j => j.Result, ended.Result).SetProperty(j => j.Problem, ended.Problem));
            if (written == 0)
            {
                return JobWriting.Dropped;
            }

            if (made is not null && Put(context, made).Outcome is not (Outcome.Made or Outcome.Changed or Outcome.Same))
            {
                return JobWriting.NotKept;
            }

            context.SaveChanges();
            transaction.Commit();
            return JobWriting.Written;
        }
    }

    private static KeptJob Kept(JobRow row) =>
        new(row.Id, row.SiteId, row.Kind, row.Request, row.Asked, row.State, row.Ended, row.Result, row.Problem) { Begun = row.Begun };
}
