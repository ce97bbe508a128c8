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

    [Fact]
    public void Enums_are_the_words_that_the_engine_writes()
    {
        HashSet<Type> seen = [];
        Walk(typeof(CarriedSite), seen);
        Walk(typeof(ProofReport), seen);
        Type[] enums = [.. seen.Where(t => t.IsEnum)];
        Assert.True(enums.Length > 8, $"{enums.Length} enums");
        foreach (object value in enums.SelectMany(t => Enum.GetValues(t).Cast<object>()))
        {
            string word = JsonSerializer.Serialize(value, value.GetType(), Json.Options);
            Assert.Equal(word, JsonSerializer.Serialize(value, value.GetType(), PageJson.Options));
            Assert.Equal(value, JsonSerializer.Deserialize(word, value.GetType(), PageJson.Options));
            Assert.Throws<JsonException>(() => JsonSerializer.Deserialize("\"no such word\"", value.GetType(), PageJson.Options));
        }
    }

    /// <summary>What JSON has to know: members, items of lists and lists as arrays, which their converter reads.</summary>
    internal static void Walk(Type type, HashSet<Type> seen)
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

        if (bare.Namespace?.StartsWith("Valvewright", StringComparison.Ordinal) != true || bare.IsEnum
            || bare.GetCustomAttribute<JsonConverterAttribute>() is not null)
        {
            return;
        }

        foreach (JsonDerivedTypeAttribute kind in bare.GetCustomAttributes<JsonDerivedTypeAttribute>())
        {
            Walk(kind.DerivedType, seen);
        }

        foreach (PropertyInfo member in bare.GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(p => p.GetCustomAttribute<JsonIgnoreAttribute>() is null))
        {
            Walk(member.PropertyType, seen);
        }
    }
}
