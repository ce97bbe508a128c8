using System.Collections.Frozen;
using System.Text.RegularExpressions;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>What owners say in, English and Spanish side by side. Texts are plain, with one blank around each word.</summary>
internal static partial class SeenWords
{
    private static readonly (Complaint Kind, Regex Words)[] Complaints =
    [
        (Complaint.WontStop, WontStop()), (Complaint.WatersInRain, InRain()), (Complaint.Puddles, Puddles()),
            (Complaint.LowPressure, LowPressure()),
        (Complaint.Leak, Leak()), (Complaint.TwoAtOnce, AtOnce()), (Complaint.DisplayDead, DisplayDead()),
    ];

    /// <summary>Words that carry no meaning of their own here; what is in neither this list nor the lexicon is told as not
    /// understood.</summary>
    private static readonly FrozenSet<string> Known = (
        "i we my our you they he she there here that this it it's its is was were are be been being am to of in on at for and or the a " +
            "an so just even still only also again always ever any some what when where while which who out up down off over "
        + "came come comes coming went go goes going get gets got run ran runs running start started starts stop stops stopped saw see " +
            "seen hear heard notice noticed think like lunch dinner having eating sleeping bed "
        + "works work working does do doesn't don't did didn't has have hasn't haven't isn't wasn't won't never not no nothing none " +
            "sprinklers sprinkler heads head irrigation water watered watering waters lawn grass garden yard beds bed flowers plants " +
                "system "
        + "last night tonight yesterday today morning afternoon evening noon midnight day days week weeks month months minutes minute " +
            "hours hour times twice once thrice each every single all both since past ago long too bone dry dead brown anything " +
                "everything least most more less than around about almost by itself "
        + "turn turns turned turning on skips skip skipped misses missed skipping receives receive getting number but except "
        + "yo nosotros mi mis nuestro la el los las lo le les un una unos unas de del en a al por para con sin y o que se si cuando " +
            "donde mientras hay ha han he esta estaba estan era es son fue ser estamos estabamos este esta eso ese esa cada vez veces "
        + "riega riegan regando rego regado regar arranca arranco arrancaron arrancan prende prendio prenden prendido prendida encendio " +
            "enciende encendido apaga apago apagan empieza empezo empiezan funciona funcionan funcionaron sale salio salen cae recibe " +
                "reciben llega llego comiendo comer almorzando dormidos ver vi vimos oi "
        + "anoche ayer hoy noche noches manana tarde mediodia medianoche dia dias semana semanas mes meses minuto minutos hora horas " +
            "todo todos toda todas nada nunca jamas no ni ningun ninguna solo solamente siempre desde hace durante menos salvo excepto "
        + "cesped jardin fin fines plantas agua aspersores seco seca secos secas salta saltan saltea ninguno sistema riego").Split(' ')
            .ToFrozenSet(StringComparer.Ordinal);

    public static Regex Denial { get; } = DenialWords();

    /// <summary>What is supposed, asked, or was once, is not what was seen; nor is what is as it should be.</summary>
    public static Regex NotSeen { get; } = NotSeenWords();

    /// <summary>A statement that denies one thing and says another.</summary>
    public static Regex Contrast { get; } = ContrastWords();

    /// <summary>"not" that only leads to what is left out.</summary>
    public static Regex NotThat { get; } = NotThatWords();

    public static Regex Nothing { get; } = NothingWords();

    public static Regex Never { get; } = NeverWords();

    public static Regex Dry { get; } = DryWords();

    public static Regex Only { get; } = OnlyWords();

    public static Regex All { get; } = AllWords();

    public static Regex Skips { get; } = SkipWords();

    public static Regex Since { get; } = SinceWords();

    public static Regex Vague { get; } = VagueWords();

    public static Regex Weekend { get; } = WeekendWords();

    public static Regex LastNight { get; } = LastNightWords();

    public static Regex AtNight { get; } = AtNightWords();

    public static Regex Night { get; } = NightWords();

    public static Regex Yesterday { get; } = YesterdayWords();

    public static Regex Today { get; } = TodayWords();

    public static Regex Evening { get; } = EveningWords();

    public static Regex Morning { get; } = MorningWords();

    public static Regex Twice { get; } = TwiceWords();

    public static Regex Once { get; } = OnceWords();

    public static Regex Daily { get; } = DailyWords();

    public static Regex ForSoLong { get; } = ForSoLongWords();

    /// <summary>Whether a word is known here.</summary>
    public static bool Knows(string word) => Known.Contains(word);

    /// <summary>What is complained of; null where it may be a setting.</summary>
    public static Complaint? ComplaintIn(string text)
    {
        foreach ((Complaint kind, Regex words) in Complaints)
        {
            if (words.IsMatch(text))
            {
                return kind;
            }
        }

        return null;
    }

    [GeneratedRegex(
        @" (?:(?:won't|doesn't|does not|will not|never|can't|cannot|didn't|did not) (?:stop|shut|close|turn off|go off|quit|switch off)|(?:stays|stuck|keeps) (?:on|open|running|going)|no (?:para|se apaga|cierra|se cierra|se detiene|deja de (?:regar|salir))|(?:sigue|se queda|se quedo) (?:abiert[ao]|prendid[ao]|encendid[ao]|regando)) ")]
    private static partial Regex WontStop();

    [GeneratedRegex(
        @" (?:(?:in|during|through) (?:the |pouring |heavy )*rain|(?:when|while|even when|even though) (?:it's|it is|it was|it) (?:rains|raining|rained)|(?:when|while) it rains|cuando (?:llueve|esta lloviendo|estaba lloviendo)|(?:bajo|con) la lluvia|lloviendo|aunque llueva) ")]
    private static partial Regex InRain();

    [GeneratedRegex(
        @" (?:puddles?|puddling|ponding|swampy|soggy|flooded|flooding|runs? off|runoff|charcos?|encharcad[oa]s?|encharca|inundad[oa]|se inunda) ")]
    private static partial Regex Puddles();

    [GeneratedRegex(
        @" (?:(?:low|no|little|weak|poor|less) (?:water )?pressure|pressure (?:is|seems|was) (?:very |too |so )?(?:low|weak|poor|bad)|barely (?:spray\w*|dribbl\w*|com\w*)|poca presion|sin presion|falta presion|presion (?:baja|es baja|esta baja)) ")]
    private static partial Regex LowPressure();

    [GeneratedRegex(@" (?:leak\w*|broken|burst|cracked|gushing|geyser|fugas?|gotea|goteando|rot[oa]s?|reventad[oa]s?|se sale el agua) ")]
    private static partial Regex Leak();

    [GeneratedRegex(
        @" (?:(?:run|on|open|running|come on|comes on|water) (?:all )?(?:at once|at the same time|together)|al mismo tiempo|a la vez|juntas) ")]
    private static partial Regex AtOnce();

    [GeneratedRegex(
        @" (?:(?:display|screen|panel) (?:is |was |went )?(?:blank|dead|dark|empty|black)|(?:pantalla) (?:esta )?(?:en blanco|apagada|negra|muerta|vacia)|no (?:enciende|prende) la pantalla) ")]
    private static partial Regex DisplayDead();

    [GeneratedRegex(
        @" (?:used to|supposed to|should|ought|is set (?:for|to)|if|unless|until|till|before|instead|sometimes|some days|not only|not just|works? fine|works? well|no problems?|is fine|hardly|rarely|almost never|deberia|tendria que|hasta|antes|si|a veces|algunas veces|no solo|funciona bien|sin problemas?|casi nunca|en vez|en lugar) | \? ")]
    private static partial Regex NotSeenWords();

    [GeneratedRegex(@" (?:but|and not|and doesn't|and didn't|although|though|pero|sino|y no|aunque|while|mientras) ")]
    private static partial Regex ContrastWords();

    [GeneratedRegex(@" not (?=number|station|the|#)| (?:but|just|except|menos|salvo|excepto) (?:not )?")]
    private static partial Regex NotThatWords();

    [GeneratedRegex(
        @" (?:never|not|nothing|no|nada|nunca|jamas|ninguna?|didn't|doesn't|won't|don't|hasn't|haven't|isn't|wasn't|sin|none|can't) ")]
    private static partial Regex DenialWords();

    [GeneratedRegex(
        @" (?:nothing|nada|no water|no sale agua|no agua|none of (?:it|them)|ninguna|doesn't work|does not work|not working|no funciona) ")]
    private static partial Regex NothingWords();

    [GeneratedRegex(@" (?:never|nunca|jamas) ")]
    private static partial Regex NeverWords();

    [GeneratedRegex(
        @" (?:bone dry|(?:is|are|stays|stay) dry|esta seco|esta seca|estan secos|estan secas|gets nothing|gets no water|dead) ")]
    private static partial Regex DryWords();

    [GeneratedRegex(@" (?:only|just|solo|solamente|unicamente|nada mas) ")]
    private static partial Regex OnlyWords();

    [GeneratedRegex(@" (?:all|everything|every|nothing|none|ninguna|ninguno|nada|others?|rest|todo|todas?|todos|demas) ")]
    private static partial Regex AllWords();

    [GeneratedRegex(@" (?:skips?|skipped|skipping|misses|missed|se salta|se saltea|se saltan|saltea) ")]
    private static partial Regex SkipWords();

    [GeneratedRegex(@" (?:since|desde) (?!hace )")]
    private static partial Regex SinceWords();

    /// <summary>Said of a length or a moment without a figure: it must be asked.</summary>
    [GeneratedRegex(
        @" (?:late|early|earlier|later|too long|too short|too much|too little|all night|all day|tarde(?! de)|temprano|demasiado|muy poco|toda la noche|todo el dia) $| (?:hour|hora) (?:late|early|tarde|temprano|antes|despues) ")]
    private static partial Regex VagueWords();

    [GeneratedRegex(@" (?:weekends?|fin(?:es)? de semana) ")]
    private static partial Regex WeekendWords();

    [GeneratedRegex(@" (?:last night|anoche) ")]
    private static partial Regex LastNightWords();

    [GeneratedRegex(@" (?:at night|de la noche|por la noche|in the night) ")]
    private static partial Regex AtNightWords();

    [GeneratedRegex(@" (?:night|nights|nightly|noche|noches|anoche) ")]
    private static partial Regex NightWords();

    [GeneratedRegex(@" (?:yesterday|ayer) ")]
    private static partial Regex YesterdayWords();

    [GeneratedRegex(@" (?:today|this morning|this afternoon|tonight|hoy|esta manana|esta tarde) ")]
    private static partial Regex TodayWords();

    [GeneratedRegex(@" (?:evening|afternoon|tonight|de la tarde|por la tarde|esta tarde|en la tarde) ")]
    private static partial Regex EveningWords();

    [GeneratedRegex(@" (?:morning|manana|madrugada) ")]
    private static partial Regex MorningWords();

    [GeneratedRegex(@" (?:twice|dos veces|2 x) ")]
    private static partial Regex TwiceWords();

    [GeneratedRegex(@" (?:once (?:a|per|every|each)|una vez (?:al|por|cada)) ")]
    private static partial Regex OnceWords();

    [GeneratedRegex(
        @" (?:(?:every|each) (?:single )?(?:day|night|morning|evening)|daily|nightly|cada (?:dia|noche|manana|tarde)|tod(?:o|a)s l(?:o|a)s (?:dias|noches|mananas|tardes)|diario|diariamente) ")]
    private static partial Regex DailyWords();

    [GeneratedRegex(@" (?:for|since|in|hace|durante|desde|en|last|past|days now|llevo|lleva) ")]
    private static partial Regex ForSoLongWords();
}
