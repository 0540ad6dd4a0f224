//! A recipe as plain data: what `reading` makes of a draft, what `kitchen` resizes and `output` prints.
//!
//! Every figure keeps the span of the words it came from. Nothing here decides anything.

use crate::draft::Span;
use crate::measure::{Amount, Heat, Pan, Ratio, Time, Unit};

/// What one draft became.
#[derive(Clone, Debug, Default)]
pub struct Book {
    /// The cards, in the order the dishes were told.
    pub cards: Vec<Card>,
    /// Every clause of the draft, in order, with its use: each word of the draft lies in exactly one.
    pub clauses: Vec<Clause>,
    /// Slips of the speech-to-text put right, each of which the cook can undo.
    pub fixes: Vec<Fix>,
}

/// One dish.
#[derive(Clone, Debug, Default)]
pub struct Card {
    /// Lower case, as an editor would title it: "skillet corn pudding".
    pub title: String,
    /// Where it was named.
    pub title_span: Option<Span>,
    /// A sentence or two of hers about the dish.
    pub headnote: Option<Remark>,
    /// How much it makes, where said.
    pub makes: Option<Yield>,
    /// Pans, in order of first use.
    pub pans: Vec<Said<Pan>>,
    /// Oven settings, in the order they are set.
    pub ovens: Vec<Said<Heat>>,
    /// Times, in order.
    pub times: Vec<Said<Time>>,
    /// The list.
    pub lines: Vec<Line>,
    /// The method, in working order.
    pub steps: Vec<Step>,
    /// Swaps, make-ahead, storage, cautions.
    pub notes: Vec<Note>,
    /// What to ask the cook.
    pub queries: Vec<Query>,
}

/// A figure with the words it came from.
#[derive(Clone, Copy, Debug)]
pub struct Said<T> {
    /// The figure.
    pub what: T,
    /// Its words.
    pub span: Span,
}

/// How much a card makes.
#[derive(Clone, Debug)]
pub struct Yield {
    /// The low end.
    pub low: Ratio,
    /// The high end; equal to the low end where no range was said.
    pub high: Ratio,
    /// "servings", "cookies", "muffins".
    pub of: String,
    /// Its words.
    pub span: Span,
}

/// The size printed on a container.
#[derive(Clone, Copy, Debug)]
pub struct Package {
    /// How much is in one.
    pub size: Ratio,
    /// In what.
    pub unit: Unit,
}

/// One line of the list: one ingredient of one component.
#[derive(Clone, Debug, Default)]
pub struct Line {
    /// The ingredient as a shopper needs it: "unsalted butter".
    pub name: String,
    /// The total; `None` for "some" and "to taste".
    pub amount: Option<Amount>,
    /// The size of each container.
    pub package: Option<Package>,
    /// How it is prepared, in her words: "finely diced".
    pub prep: Vec<String>,
    /// It can be left out.
    pub optional: bool,
    /// She said "to taste".
    pub to_taste: bool,
    /// Used in more than one place.
    pub divided: bool,
    /// The component it belongs to: "topping"; `None` for the main or only one.
    pub group: Option<String>,
    /// Something short worth saying beside it: "about 3 tablespoons", "or as many as you like".
    pub remark: Option<String>,
    /// The places it is used, with the part of the total that goes there, where that was said.
    pub parts: Vec<Part>,
    /// Every place in the draft that speaks of it; the first is the figure's.
    pub spans: Vec<Span>,
}

/// One entry of the ledger: a part of a line, used somewhere.
#[derive(Clone, Debug)]
pub struct Part {
    /// How much of it; `None` where it was not said.
    pub amount: Option<Amount>,
    /// The words.
    pub span: Span,
}

/// One step: a row of pieces.
#[derive(Clone, Debug, Default)]
pub struct Step {
    /// The pieces, in order; their texts joined as they stand make the sentence, stops included.
    pub pieces: Vec<Piece>,
    /// The component it works on.
    pub group: Option<String>,
}

/// A piece of a step.
#[derive(Clone, Debug)]
pub struct Piece {
    /// What it is.
    pub kind: PieceKind,
    /// The words it came from; `None` for the joints of grammar.
    pub span: Option<Span>,
}

/// What a piece is. Scaling touches `Amount` pieces and nothing else.
#[derive(Clone, Debug)]
pub enum PieceKind {
    /// Words, with their own spaces and stops.
    Words(String),
    /// A divided amount of `line` (an index into [`Card::lines`]), or of nothing listed.
    Amount {
        /// How much.
        amount: Amount,
        /// Which line it is a part of.
        line: Option<usize>,
    },
    /// An oven setting or a temperature of food.
    Heat(Heat),
    /// A time.
    Time(Time),
    /// A pan with its size.
    Pan(Pan),
}

/// A remark kept below the card.
#[derive(Clone, Debug)]
pub struct Note {
    /// What sort it is, for its lead-in word.
    pub kind: NoteKind,
    /// The text, a sentence or two.
    pub text: String,
    /// Its words.
    pub span: Span,
}

/// What a note is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoteKind {
    /// What the recipe called for where the cook used something else, or what would do instead.
    Swap,
    /// Made ahead.
    Ahead,
    /// Kept, chilled, frozen, reheated.
    Keeping,
    /// What to mind or to do if it goes wrong.
    Caution,
    /// Served with.
    Serving,
    /// Anything else worth keeping.
    Tip,
}

/// A sentence of hers, kept whole.
#[derive(Clone, Debug)]
pub struct Remark {
    /// The text.
    pub text: String,
    /// Its words.
    pub span: Span,
}

/// A question for the cook.
#[derive(Clone, Debug)]
pub struct Query {
    /// Short, about one thing: what was heard and what is wanted.
    pub text: String,
    /// The line it stands beside, an index into [`Card::lines`].
    pub line: Option<usize>,
    /// Likely answers.
    pub choices: Vec<Choice>,
    /// The words in doubt.
    pub spans: Vec<Span>,
}

/// One likely answer.
#[derive(Clone, Debug)]
pub struct Choice {
    /// What the button says: "1 teaspoon".
    pub label: String,
    /// The amount it would set on the query's line.
    pub amount: Option<Amount>,
}

/// A slip of speech-to-text.
#[derive(Clone, Debug)]
pub struct Fix {
    /// What stands in the draft.
    pub heard: String,
    /// What was meant.
    pub meant: String,
    /// Where.
    pub span: Span,
    /// Whether it was read as it was heard, because the cook asked for that.
    pub left: bool,
}

/// The main use of a clause.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Use {
    /// Told as a step.
    Action,
    /// Names ingredients or their amounts.
    Ingredient,
    /// Kept as a note.
    Remark,
    /// Corrects something said before.
    Correction,
    /// Opens a dish or a component.
    Opening,
    /// Says how much the dish makes, or closes it.
    Closing,
    /// Talk with no place on a card.
    Chatter,
}

impl Use {
    /// The word the accounting prints.
    pub const fn name(self) -> &'static str {
        match self {
            Use::Action => "action",
            Use::Ingredient => "ingredient",
            Use::Remark => "remark",
            Use::Correction => "correction",
            Use::Opening => "opening",
            Use::Closing => "closing",
            Use::Chatter => "left out",
        }
    }
}

/// One clause of the draft and what became of it.
#[derive(Clone, Debug)]
pub struct Clause {
    /// Its words.
    pub span: Span,
    /// Its main use.
    pub main: Use,
    /// Why, in a few words.
    pub why: &'static str,
    /// The card it went to, an index into [`Book::cards`].
    pub card: Option<usize>,
}

/// An amount in words a query or a note can carry: "2 cups", "1 1/2 teaspoons", "3 to 4".
pub fn said(amount: &Amount) -> String {
    let figure =
        if amount.is_range() { format!("{} to {}", amount.low(), amount.high()) } else { amount.low().to_string() };
    match amount.unit() {
        Some(u) if amount.high() > Ratio::ONE => format!("{figure} {}", u.plural()),
        Some(u) => format!("{figure} {u}"),
        None => figure,
    }
}
