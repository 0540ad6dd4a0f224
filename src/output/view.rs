//! A recipe becomes a card view: every figure printed, every place kept.

use super::card::*;
use crate::draft::Span;
use crate::kitchen::factor::{self, Names};
use crate::kitchen::figures::{self, Figure, Figures};
use crate::kitchen::order::order;
use crate::kitchen::pan::Vessel;
use crate::kitchen::signs::Cause;
use crate::kitchen::{HeatScale, Lengths, Measures, Units, Wanted, advice, caution, convert, foods, pan, round, scale};
use crate::letters::capital;
use crate::measure::{Heat, Pan, Ratio, Time, TimeUnit, Unit};
use crate::recipe::{Card, Line, NoteKind, Piece, PieceKind, Said};

fn place(span: Span) -> Place {
    (span.start, span.end)
}

/// The card as it is shown, resized and in the units wanted.
///
/// A factor that may not be used (outside 1/16 to 100, or any on a home-canning card) leaves the card as spoken, and
/// [`SizingView::refused`] says why.
pub fn view(card: &Card, wanted: &Wanted) -> CardView {
    let allowed = factor::allowed(card, wanted.factor);
    let refused = allowed.as_ref().err().map(|e| e.to_string());
    let asked = wanted;
    let wanted = &Wanted { factor: allowed.unwrap_or(Ratio::ONE), ..*wanted };
    let scaled = scale::scale(card, wanted.factor);
    let figures = figures::figures(&scaled, wanted);
    let dials = Dials::of(card, wanted);
    CardView {
        title: capital(&card.title),
        title_place: card.title_span.map(place),
        headnote: card.headnote.as_ref().map(|h| h.text.clone()),
        facts: facts(&scaled, &dials, wanted),
        sizing: sizing(card, wanted, refused, figures.measures),
        size: size(wanted.factor),
        groups: groups(card, &figures, wanted),
        steps: steps(&scaled, &figures, &dials),
        notes: card.notes.iter().map(|n| note(n.kind, &n.text, n.span)).collect(),
        queries: queries(card),
        margin: margin(card, &figures, asked),
    }
}

/// The scales heats and sizes are printed on.
struct Dials<'a> {
    ovens: &'a [Said<Heat>],
    heat: HeatScale,
    lengths: Lengths,
}

impl<'a> Dials<'a> {
    fn of(card: &'a Card, wanted: &Wanted) -> Dials<'a> {
        let heat = match (wanted.heat, wanted.units) {
            (HeatScale::Follow, Units::Us) => HeatScale::Fahrenheit,
            (HeatScale::Follow, Units::Metric) => HeatScale::Celsius,
            (HeatScale::Follow, _) => HeatScale::Said,
            (chosen, _) => chosen,
        };
        let lengths = match (wanted.lengths, wanted.units) {
            (Lengths::Follow, Units::Us) => Lengths::Inches,
            (Lengths::Follow, Units::Metric) => Lengths::Centimeters,
            (Lengths::Follow, _) => Lengths::Said,
            (chosen, _) => chosen,
        };
        Dials { ovens: &card.ovens, heat, lengths }
    }

    /// A heat of the oven follows its dial; any other is the temperature of a food and keeps its degree.
    fn heat(&self, heat: Heat) -> String {
        let dial = matches!(heat, Heat::Fan(_) | Heat::Gas(_)) || self.ovens.iter().any(|o| o.what == heat);
        match if dial { convert::oven(heat, self.heat) } else { convert::of_food(heat, self.heat) } {
            Heat::Fahrenheit(n) => format!("{n} °F"),
            Heat::Celsius(n) => format!("{n} °C"),
            Heat::Fan(n) => format!("{n} °C fan"),
            Heat::Gas(n) => format!("gas mark {n}"),
            Heat::Broil => "broil".to_owned(),
        }
    }

    fn pan(&self, pan: &Pan) -> String {
        convert::sides(pan, self.lengths).to_string()
    }
}

/// "as spoken", "half as spoken", "twice as spoken", "1 1/2 times as spoken".
fn size(factor: Ratio) -> String {
    let words =
        [((1, 1), ""), ((1, 2), "half "), ((2, 1), "twice "), ((3, 1), "three times "), ((4, 1), "four times ")];
    match words.iter().find(|((num, den), _)| Ratio::of(*num, *den) == factor) {
        Some((_, word)) => format!("{word}as spoken"),
        None if factor.den() <= 64 => format!("{factor} times as spoken"),
        None => format!("{} times as spoken", round::decimal(factor, 2)),
    }
}

/// Serves, dish, oven, time: what was said, each once.
fn facts(card: &Card, dials: &Dials<'_>, wanted: &Wanted) -> Vec<FactView> {
    let mut facts: Vec<FactView> = Vec::new();
    let mut put = |label: &str, value: String, span: Span| {
        if !facts.iter().any(|f| f.label == label && f.value == value) {
            facts.push(FactView { label: label.to_owned(), value, place: Some(place(span)) });
        }
    };
    if let Some(makes) = &card.makes {
        let people = matches!(makes.of.as_str(), "servings" | "serving" | "people");
        let figure = factor::makes(makes, Ratio::ONE);
        let many = makes.high > Ratio::ONE;
        if people {
            put("Serves", figure, makes.span);
        } else {
            let of = if makes.of.is_empty() { String::new() } else { format!(" {}", agree(&makes.of, many)) };
            put("Makes", format!("{figure}{of}"), makes.span);
        }
    }
    for pan in card.pans.iter().filter(|p| !p.what.sides.is_empty() || p.what.holds.is_some()) {
        put("Dish", dish(&pan.what, dials, wanted), pan.span);
    }
    if let (Some(yours), Some(pan)) = (&wanted.pan, card.pans.iter().find(|p| Vessel::of(&p.what).is_some())) {
        put("Your dish", yours.to_string(), pan.span);
    }
    for oven in &card.ovens {
        put("Oven", dials.heat(oven.what), oven.span);
    }
    for time in main_times(&card.times) {
        put("Time", short_time(&time.what), time.span);
    }
    facts
}

/// The times for the facts: all of up to three, else the three longest, in order. The method has them all.
fn main_times(times: &[Said<Time>]) -> Vec<&Said<Time>> {
    let seconds = |at: usize| times[at].what.high_seconds();
    let mut longest = order(times.len(), &mut |a, b| seconds(a) > seconds(b));
    longest.truncate(3);
    times.iter().enumerate().filter(|(i, _)| longest.contains(i)).map(|(_, t)| t).collect()
}

/// The pan as said, and how many a whole factor takes: "two 9 × 13 in baking dishes". Its size never changes.
fn dish(pan: &Pan, dials: &Dials<'_>, wanted: &Wanted) -> String {
    const NUMBERS: [&str; 11] =
        ["two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    let Some(n) = pan::count(pan, wanted.factor).filter(|_| wanted.pan.is_none()) else { return dials.pan(pan) };
    let number = usize::try_from(n - 2).ok().and_then(|at| NUMBERS.get(at));
    let number = number.map_or_else(|| n.to_string(), |w| (*w).to_owned());
    let many = Pan { called: agree(&pan.called, true), ..pan.clone() };
    format!("{number} {}", dials.pan(&many))
}

fn sizing(card: &Card, wanted: &Wanted, refused: Option<String>, measures: Measures) -> SizingView {
    let Names { text, makes, of, pans, as_spoken, .. } = factor::names(card, wanted.factor);
    SizingView { factor: text, makes, of, pans, as_spoken, refused, measures: measures.name().to_owned() }
}

/// "40–45 min", "1 1/4 hr", "2 days".
fn short_time(time: &Time) -> String {
    let many = time.high() > Ratio::ONE;
    let unit = match time.unit() {
        TimeUnit::Second => "sec",
        TimeUnit::Minute => "min",
        TimeUnit::Hour => "hr",
        TimeUnit::Day if many => "days",
        TimeUnit::Week if many => "weeks",
        TimeUnit::Month if many => "months",
        TimeUnit::Year if many => "years",
        other => other.name(),
    };
    if time.low() == time.high() {
        format!("{} {unit}", time.low())
    } else if time.low().is_whole() && time.high().is_whole() {
        format!("{}–{} {unit}", time.low(), time.high())
    } else {
        format!("{} to {} {unit}", time.low(), time.high())
    }
}

fn groups(card: &Card, figures: &Figures, wanted: &Wanted) -> Vec<GroupView> {
    let mut groups: Vec<GroupView> = Vec::new();
    for (index, line) in card.lines.iter().enumerate() {
        let shown = line_view(index, line, figures.lines[index].as_ref(), wanted.factor != Ratio::ONE);
        match groups.iter_mut().find(|g| g.name == line.group) {
            Some(group) => group.lines.push(shown),
            None => groups.push(GroupView { name: line.group.clone(), lines: vec![shown] }),
        }
    }
    let (mut groups, components): (Vec<GroupView>, Vec<GroupView>) = groups.into_iter().partition(|g| g.name.is_none());
    groups.extend(components);
    groups
}

fn line_view(index: usize, line: &Line, figure: Option<&Figure>, scaled: bool) -> LineView {
    let said = line.amount.filter(|a| a.unit().is_none()).map(|a| a.high() > Ratio::ONE);
    let now = figure.and_then(|f| f.count).map(|c| c > Ratio::ONE);
    let name = match (said, now) {
        (Some(before), Some(many)) if before != many => agree(&line.name, many),
        _ => line.name.clone(),
    };
    let mut prep = line.prep.clone();
    if line.divided && !prep.iter().any(|p| p == "divided") {
        prep.push("divided".to_owned());
    }
    let mut remark = Vec::new();
    remark.extend(figure.and_then(|f| f.help.clone()));
    remark.extend(line.remark.as_ref().map(|said| {
        let figures = scaled && said.contains(|c: char| c.is_ascii_digit());
        if figures { format!("{said}, as spoken") } else { said.clone() }
    }));
    let mut put = |flag: bool, words: &str| {
        if flag && !remark.iter().any(|r| crate::letters::holds(r, words)) {
            remark.push(words.to_owned());
        }
    };
    put(line.to_taste, "to taste");
    put(line.optional, "if you like");
    LineView {
        index,
        amount: figure.map(|f| f.text.clone()).unwrap_or_default(),
        exact: figure.and_then(|f| f.exact.clone()),
        name,
        prep: crate::letters::join(&prep, ", "),
        remark: crate::letters::join(&remark, "; "),
        places: line.spans.iter().copied().map(place).collect(),
    }
}

/// A food's name in the number wanted: "egg" and "eggs", "bay leaf" and "bay leaves". The word before "of", "for" or
/// "with" changes, else the last.
fn agree(name: &str, many: bool) -> String {
    let words: Vec<&str> = name.split(' ').collect();
    let head = words.iter().position(|w| matches!(*w, "of" | "for" | "with" | "in")).unwrap_or(words.len()).max(1) - 1;
    let set = |(at, word): (usize, &&str)| match (at == head, many) {
        (false, _) => (*word).to_owned(),
        (true, false) => foods::singular(word),
        (true, true) => foods::plural(&foods::singular(word)),
    };
    crate::letters::join(&words.iter().enumerate().map(set).collect::<Vec<_>>(), " ")
}

fn steps(card: &Card, figures: &Figures, dials: &Dials<'_>) -> Vec<StepView> {
    let mut before: Option<&str> = None;
    let mut views = Vec::with_capacity(card.steps.len());
    for (step, amounts) in card.steps.iter().zip(&figures.steps) {
        let group = step.group.as_deref();
        let pieces = step.pieces.iter().zip(amounts).map(|(p, a)| piece(p, a.as_ref(), dials));
        let (lead, lead_place, pieces) = cut_lead(pieces.collect());
        views.push(StepView { lead, lead_place, pieces, group: group.filter(|_| group != before).map(str::to_owned) });
        before = group;
    }
    views
}

fn piece(piece: &Piece, amount: Option<&Figure>, dials: &Dials<'_>) -> PieceView {
    let (kind, text) = match &piece.kind {
        PieceKind::Words(words) => ("words", words.clone()),
        PieceKind::Amount { amount: said, .. } => {
            ("amount", amount.map_or_else(|| said.to_string(), |a| a.text.clone()))
        }
        PieceKind::Heat(heat) => ("heat", dials.heat(*heat)),
        PieceKind::Time(time) => ("time", time.to_string()),
        PieceKind::Pan(pan) => ("pan", dials.pan(pan)),
    };
    PieceView { kind, text, exact: amount.and_then(|a| a.exact.clone()), place: piece.span.map(place) }
}

/// Words that belong to the verb before them: "Stir together", "Set aside".
const PARTICLES: [&str; 12] =
    ["together", "aside", "up", "out", "down", "off", "over", "in", "on", "through", "away", "back"];
/// Words that open a step before its verb.
const OPENERS: [&str; 22] = [
    "in",
    "on",
    "with",
    "once",
    "when",
    "if",
    "while",
    "for",
    "meanwhile",
    "after",
    "before",
    "until",
    "to",
    "as",
    "using",
    "at",
    "then",
    "now",
    "next",
    "finally",
    "just",
    "from",
];

/// Cuts the verb phrase a step starts with from its first words: "Stir together", "Heat the oven", "Gently fold". Where
/// something stands before the verb ("In a wide pan, melt"), the lead runs up to the verb, unless that is far off.
fn cut_lead(mut pieces: Vec<PieceView>) -> (String, Option<Place>, Vec<PieceView>) {
    let opening: String = pieces.iter().take_while(|p| p.kind == "words").map(|p| p.text.as_str()).collect();
    let lead = crate::letters::part(&opening, 0, lead_end(&opening));
    let (mut left, mut place): (usize, Option<Place>) = (lead.len(), None);
    for piece in pieces.iter_mut().take_while(|p| p.kind == "words") {
        let cut = left.min(piece.text.len());
        if cut > 0 {
            place = place.or(piece.place).map(|(from, to)| (from, piece.place.map_or(to, |p| p.1)));
        }
        piece.text.drain(..cut);
        left -= cut;
    }
    pieces.retain(|p| !p.text.is_empty());
    (capital(lead.trim_start()), place, pieces)
}

/// The byte after the lead.
fn lead_end(text: &str) -> usize {
    let mut words = words_of(text);
    let Some((mut word, mut end)) = words.next() else { return 0 };
    let bare = |w: &str| crate::letters::lower(w.trim_end_matches([',', '.', ';', ':']));
    let stops = |w: &str| w.ends_with([',', '.', ';', ':']);
    if OPENERS.contains(&bare(word).as_str()) {
        let first = end;
        let mut left = 9;
        while !stops(word) {
            left -= 1;
            match words.next() {
                Some(next) if left > 0 => (word, end) = next,
                _ => return without_stop(text, first),
            }
        }
        match words.next() {
            Some(next) => (word, end) = next,
            None => return without_stop(text, end),
        }
    }
    if word.ends_with("ly")
        && !stops(word)
        && let Some(next) = words.next()
    {
        (word, end) = next;
    }
    if stops(word) {
        return without_stop(text, end);
    }
    if bare(word) == "do"
        && let Some((not, not_end)) = words.clone().next()
        && bare(not) == "not"
    {
        return words.nth(1).map_or(not_end, |(_, end)| without_stop(text, end));
    }
    let heats = ["heat", "preheat", "warm"].contains(&bare(word).as_str());
    if let Some((second, second_end)) = words.next() {
        if PARTICLES.contains(&bare(second).as_str()) && !following_noun(&bare(second), words.clone().next()) {
            return without_stop(text, second_end);
        }
        if heats
            && bare(second) == "the"
            && let Some((third, third_end)) = words.next()
            && bare(third).starts_with("oven")
        {
            return without_stop(text, third_end);
        }
    }
    end
}

/// "Stir in the flour" keeps "in" with its verb; "Cook in a wide pan" does not, nor "Bake on the top rack".
fn following_noun(particle: &str, next: Option<(&str, usize)>) -> bool {
    let place = matches!(particle, "in" | "on" | "over" | "through");
    place
        && next.is_some_and(|(w, _)| matches!(w, "a" | "an" | "low" | "high" | "medium" | "your" | "each" | "batches"))
}

fn without_stop(text: &str, end: usize) -> usize {
    crate::letters::part(text, 0, end).trim_end_matches([',', '.', ';', ':']).len()
}

/// The words of a text, each with the byte after it.
fn words_of(text: &str) -> impl Iterator<Item = (&str, usize)> + Clone {
    let start = text.as_ptr() as usize;
    text.split_whitespace().map(move |w| (w, w.as_ptr() as usize - start + w.len()))
}

fn note(kind: NoteKind, text: &str, span: Span) -> NoteView {
    let lead = match kind {
        NoteKind::Swap => "Instead",
        NoteKind::Ahead => "Ahead",
        NoteKind::Keeping => "Keeps",
        NoteKind::Caution => "Mind",
        NoteKind::Serving => "Serve",
        NoteKind::Tip => "",
    };
    NoteView { lead: lead.to_owned(), text: text.to_owned(), place: Some(place(span)) }
}

fn queries(card: &Card) -> Vec<QueryView> {
    let set = |q: &crate::recipe::Query| QueryView {
        text: q.text.clone(),
        line: q.line,
        choices: q.choices.iter().map(|c| c.label.clone()).collect(),
        places: q.spans.iter().copied().map(place).collect(),
    };
    card.queries.iter().map(set).collect()
}

/// Whose spoons were meant, where that changes a figure: the card is not from the US and its units were converted.
fn spoons(card: &Card, measures: Measures, wanted: &Wanted) -> Option<String> {
    let said: Vec<Unit> = card.lines.iter().filter_map(|l| l.amount?.unit()).collect();
    let named = [Unit::Cup, Unit::Tablespoon, Unit::Teaspoon, Unit::Pint].into_iter().filter(|u| said.contains(u));
    let sizes: Vec<String> = named
        .filter_map(|u| {
            Some(format!("a {} as {} ml", u.name(), round::decimal(measures.milliliters(u)?.round_to(Ratio::ONE), 0)))
        })
        .collect();
    let changes = measures != Measures::Us && wanted.units != Units::Said && !sizes.is_empty();
    changes.then(|| format!("Takes {}.", crate::letters::join(&sizes, ", ")))
}

/// What stands beside the card: what was rounded, where weights come from, advice, cautions.
fn margin(card: &Card, figures: &Figures, wanted: &Wanted) -> Vec<MarginView> {
    let mut margin = Vec::new();
    let mut put = |kind, text: String, source: Option<String>, cause: Cause| {
        margin.push(MarginView { kind, text, source, line: cause.line(), step: cause.step(), note: cause.note() });
    };
    for (index, figure) in figures.lines.iter().enumerate() {
        let Some(figure) = figure else { continue };
        if let Some(lost) = &figure.lost {
            put("rounded", lost.clone(), None, Cause::Line(index));
        }
        if let Some(row) = &figure.weight {
            put(
                "weight",
                "About: your cup of it may weigh more or less.".to_owned(),
                Some(row.clone()),
                Cause::Line(index),
            );
        }
    }
    for (index, step) in figures.steps.iter().enumerate() {
        for lost in step.iter().flatten().filter_map(|f| f.lost.as_ref()) {
            put("rounded", lost.clone(), None, Cause::Step(index));
        }
    }
    if let Some(text) = spoons(card, figures.measures, wanted) {
        put("advice", text, Some(advice::COMMON.to_owned()), Cause::Size);
    }
    for found in advice::advice(card, wanted) {
        put("advice", found.text, Some(found.source.to_owned()), found.cause);
    }
    for found in caution::cautions(card) {
        put("caution", found.text, Some(format!("{}; {}", found.source, caution::DEFER)), found.cause);
    }
    margin
}
