using Jint;
using Jint.Native;
using NodaTime;
using Valvewright.App.Tests.Ready;
using Valvewright.Files.Texts;
using Valvewright.Files.Visits;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Pages.Visits;

/// <summary>A visit that was begun and not finished: the same day it goes on, on another day a person says whose it is.</summary>
public sealed class UnfinishedVisitTests
{
    /// <summary>As much of a browser's elements as the screens touch.</summary>
    private const string Helpers = """
        import { startFlow } from './flow.js';
        class Element {
          constructor(tag) {
            Object.assign(this, { tag, children: [], dataset: {}, style: {}, attributes: {}, listeners: {}, className: '' });
          }
          append(...all) { this.children.push(...all); }
          replaceChildren(...all) { this.children = all; }
          setAttribute(name, value) { this.attributes[name] = value; if (name.startsWith('data-')) this.dataset[name.slice(5)] = value; }
          addEventListener(name, act) { this.listeners[name] = act; }
          getBoundingClientRect() { return { top: 0, bottom: 800 }; }
          focus() { }
          all(is, found = []) {
            for (const c of this.children) if (c instanceof Element) { if (is(c)) found.push(c); c.all(is, found); }
            return found;
          }
          querySelector(q) {
            const is = e => q.startsWith('.') ? e.className.split(' ').includes(q.slice(1))
              : q.startsWith('[data-') && q.slice(1, -1) in e.attributes;
            return this.all(is)[0] ?? null;
          }
          querySelectorAll() { return []; }
          get firstChild() { return this.children[0]; }
          get text() { return this.children.map(c => c instanceof Element ? c.text : String(c)).join(''); }
          set textContent(text) { this.children = [text]; }
          click() { this.listeners.click({ preventDefault() { } }); }
        }
        globalThis.document = {
          createElement: tag => new Element(tag), activeElement: null, addEventListener() { }, hidden: false, title: '',
        };
        globalThis.navigator = {};
        const day = 864e5, host = new Element('div');
        let draft = null, discarded = [], now = Date.UTC(2026, 5, 14, 8, 0);
        const keep = {
          said: 'flow.kept', saidAtEnd: 'flow.kept', newId: () => 'id', load: async () => draft,
          save: async v => { draft = JSON.parse(JSON.stringify(v)); },
          discard: async v => { discarded.push(v.begun); draft = null; },
        };
        const open = sheet => startFlow(host, sheet, 'Gate', keep, { leave() { } }, () => now);
        const asked = () => host.querySelector('[data-old]')?.text ?? '', screen = () => host.querySelector('.at-main').dataset.screen;
        const rest = async () => { for (let i = 0; i < 20; i++) await null; };
        export async function run(text) {
          const sheet = JSON.parse(text), told = [];
          await open(sheet); host.querySelector('[data-go]').click(); await rest();
          const step = draft.step;
          await open(sheet); told.push(`same day: ${asked()}`);
          now += day;
          await open(sheet); told.push(`next day: ${asked()}`);
          host.all(e => e.className === 'btn')[0].click();
          told.push(`gone on: ${asked()}${screen() === step}`);
          await open(sheet); host.querySelector('[data-go]').click(); await rest();
          told.push(`again: ${asked()}${screen()}, ${discarded.join()}, ${draft}`);
          host.querySelector('[data-go]').click(); await rest();
          told.push(`now: ${draft.begun.slice(0, 10)}`);
          return told.join('\n');
        }
        """;

    [Theory]
    [InlineData(Language.English, "Visit of Sun 14 Jun not finished")]
    [InlineData(Language.Spanish, "Visita del dom 14 jun sin terminar")]
    public void A_visit_of_another_day_is_asked_about(Language language, string question)
    {
        Garden garden = new();
        string folder = Path.Combine(Checkout.Root, "src", "Valvewright.App", "wwwroot", "js", "flow");
        string sheet = new VisitSheet(garden.All.Site.Site, Guid.Empty, "1", garden.Plan, new LocalDate(2026, 2, 1),
            new MeasuredLimits(1.7, 1.5, 1.3, 6, 1.5, 3, 12, 1000))
            .Write(new Dictionary<string, LastVisit>(), language, Instant.FromUtc(2026, 4, 8, 12, 0), "m");
        using Jint.Engine engine = new(o => o.EnableModules(folder));
        engine.Modules.Add("helpers", Helpers.Replace("'./", $"'{new Uri(folder).AbsoluteUri}/", StringComparison.Ordinal));
        JsValue told = engine.Invoke(engine.Modules.Import("helpers").Get("run"), sheet).UnwrapIfPromise();
        Assert.Equal($"same day: \nnext day: {question}\ngone on: true\nagain: found, 2026-06-14T{Begun(told)}, null\nnow: 2026-06-15",
            told.AsString());
    }

    /// <summary>The hour depends on the site's clock; it is not the matter here.</summary>
    private static string Begun(JsValue told) => told.AsString().Split("2026-06-14T")[^1][..8];
}
