using System.Reflection;
using System.Text.Json;
using System.Text.Json.Serialization;
using Valvewright.App.Shelf;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Values;

namespace Valvewright.App.Tests.Shelf;

public sealed class PageJsonTests
{
    [Theory]
    [InlineData(typeof(CarriedSite))]
    [InlineData(typeof(ProofReport))]
    public void All_that_a_carried_site_is_made_of_is_known_beforehand(Type root)
    {
        HashSet<Type> seen = [];
        Walk(root, seen);
        JsonSerializerOptions alone = new(Json.Options) { TypeInfoResolver = CarriedJson.Default };
        Assert.True(seen.Count > 20);
        Assert.Empty(seen.Where(t => !alone.TryGetTypeInfo(t, out _)).Select(t => $"[JsonSerializable(typeof({t}))]"));
    }

    /// <summary>What JSON has to know: members, items of lists and lists as arrays, which their converter reads.</summary>
    private static void Walk(Type type, HashSet<Type> seen)
    {
        Type bare = Nullable.GetUnderlyingType(type) ?? type;
        if (!seen.Add(bare))
        {
            return;
        }

        if (bare.IsGenericType && bare.GetGenericTypeDefinition() == typeof(ListOf<>))
        {
            seen.Add(bare.GetGenericArguments()[0].MakeArrayType());
            Walk(bare.GetGenericArguments()[0], seen);
            return;
        }

        if (bare.Namespace?.StartsWith("Valvewright", StringComparison.Ordinal) != true || bare.IsEnum || bare.GetCustomAttribute<JsonConverterAttribute>() is not null)
        {
            return;
        }

        foreach (JsonDerivedTypeAttribute kind in bare.GetCustomAttributes<JsonDerivedTypeAttribute>())
        {
            Walk(kind.DerivedType, seen);
        }

        foreach (PropertyInfo member in bare.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.GetCustomAttribute<JsonIgnoreAttribute>() is null))
        {
            Walk(member.PropertyType, seen);
        }
    }
}
