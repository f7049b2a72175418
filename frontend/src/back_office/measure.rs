//! The form in which the bench writes down what it measured on a pair.

use leptos::prelude::*;
use shared_types::bench::field::asked::Group;
use shared_types::bench::measure::Measured;
use shared_types::form::measure::{Coded, LEFT_ALONE, MeasureField, WhichSeam};
use shared_types::form::{Fields, FormErrors};
use shared_types::id::PairId;
use shared_types::paths;
use shared_types::size::SizeSystem;
use shared_types::ticket::{AtTheBench, Pair, Ticket};

use crate::document::{BackRoom, Desk, Room};
use crate::elements::field::{Choice, Kind, Select, TextField};
use crate::elements::length_field::LengthField;
use crate::elements::pair_words::tag_words;
use crate::elements::to_put_right::ToPutRight;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct Measure {
    /// Who works on it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Which of its pairs.
    pub pair: PairId,
    /// What was typed, or what was measured last.
    pub fields: Fields,
    /// What is wrong with it.
    pub errors: FormErrors<MeasureField>,
}

impl Measure {
    fn typed(&self, field: MeasureField) -> String {
        self.fields.one(&field.name()).to_owned()
    }

    fn is_typed(&self, field: MeasureField) -> bool {
        !self.fields.one(&field.name()).trim().is_empty()
    }

    /// The first field to put right, in the order of the page.
    fn first(&self) -> Option<MeasureField> {
        let fields = self.errors.iter().map(|(field, _)| *field);
        fields.min_by_key(|field| place(*field))
    }

    fn focus(&self, field: MeasureField) -> bool {
        self.first() == Some(field)
    }

    /// Whether a folded group has something to show.
    fn is_open(&self, group: Group) -> bool {
        let is_used =
            |field: MeasureField| self.is_typed(field) || self.errors.at(&field).is_some();
        let lengths = group.fields().map(MeasureField::Length);
        lengths
            .chain(choices_of(group).iter().copied())
            .any(is_used)
    }
}

/// What is chosen in a group, beside its lengths.
const fn choices_of(group: Group) -> &'static [MeasureField] {
    match group {
        Group::Bottom | Group::HeelShape => &[],
        Group::OldParts => &[MeasureField::OldSole],
        Group::NewParts => &[MeasureField::NewSole],
        Group::Heels => &[MeasureField::Stand],
        Group::LastAndFoot => &[MeasureField::Size, MeasureField::Wearer],
        Group::Edge => &[MeasureField::Welt],
        Group::Seams => &[
            MeasureField::Seam(WhichSeam::Inseam),
            MeasureField::Tex(WhichSeam::Inseam),
            MeasureField::Seam(WhichSeam::Outsole),
            MeasureField::Tex(WhichSeam::Outsole),
        ],
        Group::Filler => &[MeasureField::Filler],
    }
}

/// Where a field stands on the page.
fn place(field: MeasureField) -> (Option<Group>, Option<usize>) {
    if let MeasureField::Length(length) = field {
        let group = length.group();
        return (Some(group), group.fields().position(|one| one == length));
    }
    let mut groups = Group::ALL.into_iter();
    (
        groups.find(|group| choices_of(*group).contains(&field)),
        None,
    )
}

/// The form in which the bench writes down what it measured on a pair.
#[component]
pub fn MeasurePage(props: Measure) -> impl IntoView {
    let desk = props.desk.clone();
    let title = "Measure".to_owned();
    let body = props.ticket.pair(props.pair).map(|pair| form(&props, pair));
    view! { <BackRoom desk title here=Room::Elsewhere>{body}</BackRoom> }
}

fn form(props: &Measure, pair: &Pair) -> AnyView {
    let known = AtTheBench::of(&pair.about, None, &pair.agreed().lines).measured;
    let groups = Group::ALL.into_iter().map(|group| {
        let body = group_fields(props, group, &known);
        if group.is_needed_first() {
            view! {
                <fieldset class="group">
                    <legend>{group.label()}</legend>
                    <div class="measure-group">{body}</div>
                </fieldset>
            }
            .into_any()
        } else {
            view! {
                <details class="fold" open=props.is_open(group)>
                    <summary>{group.label()}</summary>
                    <div class="measure-group">{body}</div>
                </details>
            }
            .into_any()
        }
    });
    let groups = groups.collect_view();
    view! {
        <div class="page-head">
            <h1>"Measure"</h1>
            <p>
                <a href=paths::bench_sheet(pair.id)>
                    {tag_words(props.ticket.number, pair.tag)} ", " {pair.about.title()}
                </a>
            </p>
        </div>
        <p>
            "Write what you have; what is left empty takes its usual value, and the bench sheet says so. A number may bring its unit: "
            <span class="unbroken">"9 iron"</span> ", " <span class="unbroken">"3/16 in"</span> "."
        </p>
        <ToPutRight count=props.errors.iter().count() />
        <form class="form-rows measure-form" method="post" action=paths::measure(pair.id)>
            <input type="hidden" name=MeasureField::Seen.name() value=props.typed(MeasureField::Seen) />
            {groups}
            <div class="acts">
                <button class="act">"Keep these measurements"</button>
            </div>
        </form>
    }
    .into_any()
}

fn group_fields(props: &Measure, group: Group, known: &Measured) -> AnyView {
    let choices = group_choices(props, group, known);
    let lengths = group.fields().map(|field| {
        let focus = props.focus(MeasureField::Length(field));
        let (fields, errors) = (props.fields.clone(), props.errors.clone());
        view! { <LengthField field fields errors focus /> }
    });
    let lengths = lengths.collect_view();
    view! {
        {choices}
        <div class="field-row">{lengths}</div>
    }
    .into_any()
}

fn group_choices(props: &Measure, group: Group, known: &Measured) -> AnyView {
    let kinds = |field: MeasureField, label: &'static str, options, selected: String| {
        let (error, focus) = (props.errors.at(&field), props.focus(field));
        view! { <Choice label name=field.name() options selected error focus /> }.into_any()
    };
    match group {
        Group::Bottom | Group::HeelShape => ().into_any(),
        Group::OldParts => {
            let field = MeasureField::OldSole;
            let typed = props.typed(field);
            let selected = if typed.is_empty() {
                known.old_sole.code().to_owned()
            } else {
                typed
            };
            let options = of_all::<shared_types::bench::measure::SoleKind>();
            kinds(field, "The old sole is", options, selected)
        }
        Group::NewParts => {
            let options = or_known(known.new_sole);
            let field = MeasureField::NewSole;
            kinds(field, "The new sole is", options, props.typed(field))
        }
        Group::Heels => {
            let field = MeasureField::Stand;
            let choice = kinds(
                field,
                "Both shoes stand",
                or_known(known.stand),
                props.typed(field),
            );
            view! {
                {choice}
                <p class="field-hint">
                    "A difference that is meant is a licensed clinician’s to prescribe, in writing. Nothing is advised here: the pair is repaired like for like."
                </p>
            }
            .into_any()
        }
        Group::LastAndFoot => size_and_wearer(props, known),
        Group::Edge => choice_of(
            props,
            MeasureField::Welt,
            "The welt goes",
            or_known(known.welt),
        ),
        Group::Seams => WhichSeam::ALL
            .map(|seam| seam_choices(props, seam, known))
            .collect_view()
            .into_any(),
        Group::Filler => {
            let field = MeasureField::Filler;
            choice_of(
                props,
                field,
                "The filler goes",
                of_all::<shared_types::bench::measure::FillerRun>(),
            )
        }
    }
}

fn size_and_wearer(props: &Measure, known: &Measured) -> AnyView {
    let (size, system) = (MeasureField::Size, MeasureField::SizeSystem);
    let stamped = known.size.map_or_else(
        || "The counter could not read it. Write it here if you can.".to_owned(),
        |size| {
            format!(
                "Taken in as {}. Write it here only if that is wrong.",
                size.0
            )
        },
    );
    let systems = SizeSystem::ALL.map(|one| (one.code().to_owned(), one.label().to_owned()));
    view! {
        <div class="field-row">
            <TextField
                label="Size"
                name=size.name()
                value=props.typed(size)
                error=props.errors.at(&size)
                hint=stamped
                kind=Kind::Amount
                focus=props.focus(size)
            />
            <Select
                label="Its system"
                name=system.name()
                options=systems.to_vec()
                selected=props.typed(system)
            />
        </div>
        {choice_of(props, MeasureField::Wearer, "Made for", or_known(known.wearer()))}
    }
    .into_any()
}

fn seam_choices(props: &Measure, seam: WhichSeam, known: &Measured) -> AnyView {
    let (field, tex) = (MeasureField::Seam(seam), MeasureField::Tex(seam));
    let (label, thread, built) = match seam {
        WhichSeam::Inseam => ("The inseam is sewn", "Its thread, tex", known.inseam),
        WhichSeam::Outsole => ("The outsole is sewn", "Its thread, tex", known.outsole_seam),
    };
    let built = built.map_or("not at all", |seam| seam.stitch.label());
    let mut options = vec![(String::new(), format!("As built and agreed: {built}"))];
    options.extend(of_all::<shared_types::bench::thread::Stitch>());
    options.push((LEFT_ALONE.to_owned(), "Left alone".to_owned()));
    view! {
        {choice_of(props, field, label, options)}
        <TextField
            label=thread
            name=tex.name()
            value=props.typed(tex)
            error=props.errors.at(&tex)
            hint="Grams for 1,000 m. Counts with a stitch that is chosen above."
            kind=Kind::Number
            focus=props.focus(tex)
        />
    }
    .into_any()
}

fn choice_of(
    props: &Measure,
    field: MeasureField,
    label: &'static str,
    options: Vec<(String, String)>,
) -> AnyView {
    view! {
        <Select
            label
            name=field.name()
            options
            selected=props.typed(field)
            error=props.errors.at(&field)
            focus=props.focus(field)
        />
    }
    .into_any()
}

fn of_all<C: Coded>() -> Vec<(String, String)> {
    let codes = C::CODES.iter();
    codes
        .map(|(_, code, words)| ((*code).to_owned(), (*words).to_owned()))
        .collect()
}

/// All, after what follows from the pair and its agreed work.
fn or_known<C: Coded>(known: C) -> Vec<(String, String)> {
    let mut codes = C::CODES.iter();
    let words = codes
        .find(|(one, ..)| *one == known)
        .map_or("", |(_, _, words)| *words);
    let first = (
        String::new(),
        format!("As built and agreed: {}", lower(words)),
    );
    [first].into_iter().chain(of_all::<C>()).collect()
}

fn lower(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

#[cfg(all(test, feature = "ssr"))]
mod tests {
    use shared_types::form::measure::read;
    use shared_types::staff::Role;

    use super::*;
    use crate::fixture::{BOOTS, desk, split_welt};

    fn shown(typed: &[(&str, &str)]) -> String {
        let ticket = split_welt().ticket();
        let own = |(name, value): &(&str, &str)| ((*name).to_owned(), (*value).to_owned());
        let fields: Fields = typed.iter().map(own).collect();
        let pair = ticket.pair(BOOTS).expect("the boots");
        let errors = read(&fields, &pair.about, &pair.agreed().lines).err();
        let props = Measure {
            desk: desk(Role::Bench),
            ticket: ticket.clone(),
            pair: BOOTS,
            fields,
            errors: errors.unwrap_or_default(),
        };
        crate::render::page(|| view! { <MeasurePage props /> })
    }

    #[test]
    fn every_length_has_a_label_a_decimal_keyboard_and_its_units() {
        use shared_types::bench::field::Field;
        let html = shown(&[]);
        for field in Field::ALL {
            let code = field.code();
            assert!(html.contains(&format!("<label for=\"{code}\">")), "{code}");
            assert!(html.contains(&format!("name=\"{code}-unit\"")), "{code}");
        }
        // The lengths, and the size.
        let keyboards = html.matches("inputmode=\"decimal\"").count();
        assert_eq!(keyboards, Field::ALL.len() + 1);
        assert!(!html.contains("<details open class=\"fold\""), "{html}");
    }

    #[test]
    fn a_doubt_stands_at_its_field_with_a_box_to_tick_and_opens_its_fold() {
        let html = shown(&[
            ("new-sole-at-ball", "9"),
            ("lift", "30 iron"),
            ("rand", "x <b>"),
        ]);
        assert!(
            html.contains("Did you mean 9 iron, which is 4.8 mm?"),
            "{html}"
        );
        assert!(html.contains("name=\"new-sole-at-ball-is-so\""));
        assert!(html.contains("value=\"9\" inputmode"));
        assert!(html.contains("id=\"rand-problem\""));
        assert!(!html.contains("x <b>"));
        assert!(html.contains("<details open class=\"fold\""));
        assert!(html.contains("3 things are to be put right"));
    }
}
