//! The forms around an offer: composing it, changing an agreed scope, writing down a word.

use std::collections::BTreeSet;

use crate::digest::Digest;
use crate::form::scope::{self, ScopeField};
use crate::form::{Fields, FormErrors, Problem};
use crate::money::Currency;
use crate::pricebook::Service;
use crate::scope::discovery::Discovery;
use crate::scope::offer::Word;
use crate::scope::sheet::{ChoiceKey, Given};
use crate::scope::{ScopeLine, Work};
use crate::text::{Line, Words};

/// A field of the offer composer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum OfferField {
    /// The agreed scope whose lines the ticks keep.
    Basis,
    /// Codes of what the teardown showed.
    Discovery,
    /// What was found.
    Found,
    /// Digests of the pair's pictures to show.
    Picture,
    /// New pictures.
    Photo,
    /// What the new pictures show.
    Shows,
    /// What follows from declining.
    IfDeclined,
    /// Which button was pressed.
    Act,
    /// A choice's title.
    Title(ChoiceKey),
    /// A choice in plain words.
    Words(ChoiceKey),
    /// A choice's work.
    Work(ChoiceKey, ScopeField),
}

impl OfferField {
    /// The field's name in the form.
    pub fn name(self) -> String {
        let name = match self {
            Self::Basis => "basis",
            Self::Discovery => "discovery",
            Self::Found => "found",
            Self::Picture => "picture",
            Self::Photo => "photo",
            Self::Shows => "shows",
            Self::IfDeclined => "if-declined",
            Self::Act => "act",
            Self::Title(key) => return format!("{}title", choice_prefix(key)),
            Self::Words(key) => return format!("{}words", choice_prefix(key)),
            Self::Work(key, field) => return field.name(&choice_prefix(key)),
        };
        name.to_owned()
    }
}

/// The prefix of the names of one choice's fields.
pub fn choice_prefix(key: ChoiceKey) -> String {
    format!("{}-", key.code())
}

/// The code of the button that prepares the offer for a look; any other works out the prices.
pub const ACT_PREPARE: &str = "prepare";

/// The code of the button that fills the choices with what the discoveries ask for.
pub const ACT_PROPOSE: &str = "propose";

/// What the teardown showed, as it was ticked.
pub fn discoveries(fields: &Fields) -> BTreeSet<Discovery> {
    let name = OfferField::Discovery.name();
    fields.all(&name).filter_map(Discovery::from_code).collect()
}

/// An offer as composed, not yet priced and dated.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Composed {
    /// What was found.
    pub found: Words,
    /// What of it the rules know.
    pub discoveries: BTreeSet<Discovery>,
    /// Pictures to show.
    pub pictures: Vec<Digest>,
    /// What follows from declining.
    pub if_declined: Words,
    /// The choices.
    pub choices: Vec<ComposedChoice>,
}

/// One choice as composed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ComposedChoice {
    /// Its letter.
    pub key: ChoiceKey,
    /// Its name.
    pub title: Line,
    /// In plain words.
    pub words: Option<Words>,
    /// The whole work.
    pub lines: Vec<ScopeLine>,
}

/// Whether anything was typed or ticked for a choice beyond the lines that it keeps by default.
pub fn is_used(fields: &Fields, key: ChoiceKey) -> bool {
    let typed = |field: OfferField| !fields.one(&field.name()).trim().is_empty();
    let work = |field| typed(OfferField::Work(key, field));
    typed(OfferField::Title(key))
        || typed(OfferField::Words(key))
        || work(ScopeField::Service)
        || (0..scope::OWN_LINES).any(|row| work(ScopeField::OwnTitle(row)))
}

/// The work of each choice in use as far as it can be read, for the price while typing.
pub fn read_work(
    fields: &Fields,
    book: (&[Service], &[ScopeLine]),
    currency: Currency,
) -> Vec<(ChoiceKey, Vec<ScopeLine>)> {
    let used = ChoiceKey::ALL
        .into_iter()
        .filter(|key| is_used(fields, *key));
    used.map(|key| {
        let mut errors = FormErrors::default();
        let prefix = choice_prefix(key);
        (
            key,
            scope::read(fields, &prefix, book, currency, &mut errors),
        )
    })
    .collect()
}

/// Reads the whole composer.
pub fn read(
    fields: &Fields,
    book: (&[Service], &[ScopeLine]),
    currency: Currency,
) -> Result<Composed, FormErrors<OfferField>> {
    let mut errors = FormErrors::default();
    let typed = |field: OfferField| fields.one(&field.name()).to_owned();
    let found = errors.take(OfferField::Found, Words::parse(&typed(OfferField::Found)));
    let declined = Words::parse(&typed(OfferField::IfDeclined));
    let if_declined = errors.take(OfferField::IfDeclined, declined);
    let used: Vec<ChoiceKey> = ChoiceKey::ALL
        .into_iter()
        .filter(|key| is_used(fields, *key))
        .collect();
    if used.is_empty() {
        errors.add(OfferField::Title(ChoiceKey::A), Problem::NoChoice);
    }
    let choices: Vec<Option<ComposedChoice>> = used
        .into_iter()
        .map(|key| read_choice(fields, key, book, currency, &mut errors))
        .collect();
    let pictures = OfferField::Picture.name();
    match (
        found,
        if_declined,
        choices.into_iter().collect::<Option<Vec<_>>>(),
    ) {
        (Some(found), Some(if_declined), Some(choices)) if errors.is_empty() => Ok(Composed {
            found,
            discoveries: discoveries(fields),
            pictures: fields
                .all(&pictures)
                .filter_map(|text| text.parse().ok())
                .collect(),
            if_declined,
            choices,
        }),
        _ => Err(errors),
    }
}

fn read_choice(
    fields: &Fields,
    key: ChoiceKey,
    book: (&[Service], &[ScopeLine]),
    currency: Currency,
    errors: &mut FormErrors<OfferField>,
) -> Option<ComposedChoice> {
    let typed = |field: OfferField| fields.one(&field.name()).to_owned();
    let title = Line::parse(&typed(OfferField::Title(key)));
    let title = errors.take(OfferField::Title(key), title);
    let words = Words::parse_optional(&typed(OfferField::Words(key)));
    let words = errors.take(OfferField::Words(key), words);
    let mut work_errors = FormErrors::default();
    let lines = scope::read(
        fields,
        &choice_prefix(key),
        book,
        currency,
        &mut work_errors,
    );
    for (field, problem) in work_errors.iter() {
        errors.add(OfferField::Work(key, *field), problem.clone());
    }
    if lines.is_empty() && work_errors.is_empty() {
        errors.add(OfferField::Work(key, ScopeField::Service), Problem::NoWork);
    }
    Some(ComposedChoice {
        key,
        title: title?,
        words: words?,
        lines,
    })
}

/// A field of the form that changes an agreed scope.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum EditField {
    /// Where the customer agreed.
    Given,
    /// Why, or what was said.
    Words,
    /// Ticked once the customer was told of the cautions.
    CautionTold,
    /// The digest of the revision that the page showed.
    Before,
    /// The agreed scope whose lines the ticks keep.
    Basis,
    /// Which button was pressed.
    Act,
    /// The work.
    Work(ScopeField),
}

impl EditField {
    /// The field's name in the form.
    pub fn name(self) -> String {
        let name = match self {
            Self::Given => "given",
            Self::Words => "words",
            Self::CautionTold => "caution-told",
            Self::Before => "before",
            Self::Basis => "basis",
            Self::Act => "act",
            Self::Work(field) => return field.name(""),
        };
        name.to_owned()
    }
}

/// The code of the button that records the changed scope; any other works out its price.
pub const ACT_RECORD: &str = "record";

/// A changed scope as agreed with the customer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edited {
    /// Where the customer agreed.
    pub given: Given,
    /// Why, or what was said.
    pub words: Words,
    /// The revision that the page showed.
    pub before: Digest,
    /// The whole work.
    pub work: Work,
}

/// Reads a changed scope; on a pair with cautions the customer must have been told of them.
pub fn read_edit(
    fields: &Fields,
    book: (&[Service], &[ScopeLine]),
    currency: Currency,
    has_cautions: bool,
) -> Result<Edited, FormErrors<EditField>> {
    let mut errors = FormErrors::default();
    let typed = |field: EditField| fields.one(&field.name()).to_owned();
    let given = Given::from_code(&typed(EditField::Given)).ok_or(Problem::NotChosen);
    let given = errors.take(EditField::Given, given);
    let words = errors.take(EditField::Words, Words::parse(&typed(EditField::Words)));
    let before = typed(EditField::Before)
        .parse()
        .map_err(|_| Problem::Missing);
    let before = errors.take(EditField::Before, before);
    if has_cautions && !fields.has(&EditField::CautionTold.name(), "yes") {
        errors.add(EditField::CautionTold, Problem::CautionNotTold);
    }
    let mut work_errors = FormErrors::default();
    let lines = scope::read(fields, "", book, currency, &mut work_errors);
    let terms = scope::read_terms(fields, "", currency, &mut work_errors);
    for (field, problem) in work_errors.iter() {
        errors.add(EditField::Work(*field), problem.clone());
    }
    if lines.is_empty() && work_errors.is_empty() {
        errors.add(EditField::Work(ScopeField::Service), Problem::NoWork);
    }
    match (given, words, before) {
        (Some(given), Some(words), Some(before)) if errors.is_empty() => Ok(Edited {
            given,
            words,
            before,
            work: Work { lines, terms },
        }),
        _ => Err(errors),
    }
}

/// A field of the form that writes down a word given at the counter or by telephone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ToldField {
    /// The digest of the offer.
    Sheet,
    /// The turn that it answers.
    Turn,
    /// The word.
    Word,
    /// Where it was given.
    Given,
    /// Who gave it, and the number that was rung.
    SaidBy,
    /// Ticked once the cautions were read out.
    CautionTold,
}

impl ToldField {
    /// The field's name in the form.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sheet => "sheet",
            Self::Turn => "turn",
            Self::Word => "word",
            Self::Given => "given",
            Self::SaidBy => "said-by",
            Self::CautionTold => "caution-told",
        }
    }
}

/// A word as it was written down.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// The offer.
    pub sheet: Digest,
    /// The turn that it answers.
    pub turn: u32,
    /// The word.
    pub word: Word,
    /// Where it was given.
    pub given: Given,
    /// Who gave it, and the number that was rung.
    pub said_by: Line,
    /// Whether the cautions were read out.
    pub acknowledged: bool,
}

/// Reads a word that was written down.
pub fn read_told(fields: &Fields) -> Result<Told, FormErrors<ToldField>> {
    let mut errors = FormErrors::default();
    let typed = |field: ToldField| fields.one(field.name()).to_owned();
    let sheet = typed(ToldField::Sheet)
        .parse()
        .map_err(|_| Problem::Missing);
    let sheet = errors.take(ToldField::Sheet, sheet);
    let turn = typed(ToldField::Turn).parse().map_err(|_| Problem::Missing);
    let turn = errors.take(ToldField::Turn, turn);
    let word = Word::from_code(&typed(ToldField::Word)).ok_or(Problem::NotChosen);
    let word = errors.take(ToldField::Word, word);
    let given = Given::from_code(&typed(ToldField::Given)).ok_or(Problem::NotChosen);
    let given = errors.take(ToldField::Given, given);
    let said_by = errors.take(ToldField::SaidBy, Line::parse(&typed(ToldField::SaidBy)));
    match (sheet, turn, word, given, said_by) {
        (Some(sheet), Some(turn), Some(word), Some(given), Some(said_by)) => Ok(Told {
            sheet,
            turn,
            word,
            given,
            said_by,
            acknowledged: fields.has(ToldField::CautionTold.name(), "yes"),
        }),
        _ => Err(errors),
    }
}
