//! CardView: a card as the page and the text printer show it, as plain public fields. Every figure here is text.
//!
//! Invariant: nothing in `output` looks at the draft again.

use serde::Serialize;

/// A place in the draft, for lighting up words: bytes from the first to after the last.
pub type Place = (u32, u32);

/// A card ready to be set.
#[derive(Clone, Debug, Default, Serialize)]
pub struct CardView {
    /// With a capital: "Skillet corn pudding".
    pub title: String,
    /// Where it was named.
    pub title_place: Option<Place>,
    /// A sentence or two above the card.
    pub headnote: Option<String>,
    /// Serves, dish, oven, times: only what was said.
    pub facts: Vec<FactView>,
    /// "as spoken", or what was changed: "twice as spoken".
    pub size: String,
    /// The same size in its three names, for the controls that change it.
    pub sizing: SizingView,
    /// The list by component; the main component comes first and has no name.
    pub groups: Vec<GroupView>,
    /// The method.
    pub steps: Vec<StepView>,
    /// Notes, each with its lead-in.
    pub notes: Vec<NoteView>,
    /// What to ask the cook.
    pub queries: Vec<QueryView>,
    /// What stands in the margin beside a line: rounding, sources of weights, advice, cautions.
    pub margin: Vec<MarginView>,
}

/// A size in its three names: a factor, servings, pans.
#[derive(Clone, Debug, Default, Serialize)]
pub struct SizingView {
    /// "1/2"; "1" is as spoken.
    pub factor: String,
    /// How much that makes, where said: "4 to 5".
    pub makes: Option<String>,
    /// What is counted: "servings".
    pub of: Option<String>,
    /// Common pans that take it: "8-inch square pan".
    pub pans: Vec<String>,
    /// Whether this is the card as spoken.
    pub as_spoken: bool,
    /// Why the card was not resized, where it was asked and refused.
    pub refused: Option<String>,
    /// Whose cups and spoons the card means: "us", "uk", "metric", "australian".
    pub measures: String,
}

/// One entry of the facts line: "Oven" "375 °F".
#[derive(Clone, Debug, Serialize)]
pub struct FactView {
    /// "Serves", "Makes", "Dish", "Oven", "Time".
    pub label: String,
    /// "8 to 10".
    pub value: String,
    /// Its words.
    pub place: Option<Place>,
}

/// A component's lines.
#[derive(Clone, Debug, Serialize)]
pub struct GroupView {
    /// "topping".
    pub name: Option<String>,
    /// Its lines.
    pub lines: Vec<LineView>,
}

/// One line of the list.
#[derive(Clone, Debug, Serialize)]
pub struct LineView {
    /// The index of the line on the card, which queries and margin remarks name.
    pub index: usize,
    /// "1 1/2 cups"; empty where none was said.
    pub amount: String,
    /// The exact figure, where the printed one was rounded: "1/3 teaspoon". Shown on request.
    pub exact: Option<String>,
    /// "(15-ounce) cans" and the like come within the amount; this is the food alone.
    pub name: String,
    /// "finely diced, divided".
    pub prep: String,
    /// "if you like", "to taste", and any remark.
    pub remark: String,
    /// Its words, the figure's first.
    pub places: Vec<Place>,
}

/// A step.
#[derive(Clone, Debug, Serialize)]
pub struct StepView {
    /// What to do, set in semibold: "Stir together".
    pub lead: String,
    /// The pieces after the lead.
    pub pieces: Vec<PieceView>,
    /// The component, where it changes.
    pub group: Option<String>,
}

/// A piece of a step.
#[derive(Clone, Debug, Serialize)]
pub struct PieceView {
    /// "words", "amount", "heat", "time" or "pan".
    pub kind: &'static str,
    /// Its text, with its own spaces.
    pub text: String,
    /// Its words in the draft.
    pub place: Option<Place>,
}

/// A note.
#[derive(Clone, Debug, Serialize)]
pub struct NoteView {
    /// "Instead", "Ahead", "Keeps", "Mind", "Serve", or empty.
    pub lead: String,
    /// The text.
    pub text: String,
    /// Its words.
    pub place: Option<Place>,
}

/// A query.
#[derive(Clone, Debug, Serialize)]
pub struct QueryView {
    /// The question.
    pub text: String,
    /// The line it stands beside.
    pub line: Option<usize>,
    /// What the answers say.
    pub choices: Vec<String>,
    /// The words in doubt.
    pub places: Vec<Place>,
}

/// A remark in the margin.
#[derive(Clone, Debug, Serialize)]
pub struct MarginView {
    /// "rounded", "weight", "advice" or "caution".
    pub kind: &'static str,
    /// The remark.
    pub text: String,
    /// The source, where there is one.
    pub source: Option<String>,
    /// The line it stands beside.
    pub line: Option<usize>,
    /// The step it stands beside, an index into [`CardView::steps`].
    pub step: Option<usize>,
    /// The note it stands beside, an index into [`CardView::notes`].
    pub note: Option<usize>,
}
