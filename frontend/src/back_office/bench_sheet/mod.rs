//! A pair's bench sheet: every figure opens to show how it came about, and each step carries its
//! cautions.

mod figures;
pub mod paper;

use leptos::prelude::*;
use shared_types::bench::cautions::{Caution, Step, cautions};
use shared_types::bench::drawing::plan::plan;
use shared_types::bench::drawing::side::side_view;
use shared_types::bench::field::asked::Group;
use shared_types::bench::heel::Heel;
use shared_types::bench::sheet::sections::{Section, Topic};
use shared_types::bench::sheet::{BenchSheet, SheetProblem};
use shared_types::id::PairId;
use shared_types::paths;
use shared_types::staff::Permission;
use shared_types::ticket::{AtTheBench, Pair, Ticket};

use self::figures::{figure_rows, opening_figures, sizes, thicknesses};
use super::Names;
use crate::document::{BackRoom, Desk, Room};
use crate::elements::pair_words::tag_words;
use crate::elements::when::When;
use crate::elements::who::who;

/// How much smaller than the shoe the drawings are on paper.
const SCALE: f64 = 3.0;

/// Props of the page.
#[derive(Clone, Debug)]
pub struct BenchSheetView {
    /// Who reads it.
    pub desk: Desk,
    /// The ticket.
    pub ticket: Ticket,
    /// Which of its pairs.
    pub pair: PairId,
    /// Who is who.
    pub names: Names,
}

/// A pair's bench sheet.
#[component]
pub fn BenchSheetPage(props: BenchSheetView) -> impl IntoView {
    let pair = props.ticket.pair(props.pair)?.clone();
    let tag = tag_words(props.ticket.number, pair.tag);
    let title = format!("Bench sheet {tag}");
    let may_measure =
        props.desk.staff.role.may(Permission::WorkOnPairs) && pair.handed_over.is_none();
    let known = pair.at_the_bench();
    let from = worked_out_from(&props, &pair, &known, may_measure);
    let body = match known.sheet() {
        Ok(sheet) => sheet_body(&known, &sheet),
        Err(problem) => no_sheet(&pair, &known, &problem, may_measure),
    };
    Some(view! {
        <BackRoom desk=props.desk title=title.clone() here=Room::Elsewhere>
            <div class="page-head">
                <h1>{title}</h1>
                <p><a href=paths::pair(pair.id)>{pair.about.title()}</a></p>
            </div>
            {from}
            {body}
        </BackRoom>
    })
}

/// Who measured and when, what had to be assumed, and where to go from here.
fn worked_out_from(
    props: &BenchSheetView,
    pair: &Pair,
    known: &AtTheBench,
    may_measure: bool,
) -> AnyView {
    let taken = pair.measured.as_ref().map(|taken| {
        let zone = props.desk.shop.calendar.zone.clone();
        let who = who(taken.actor, &props.names);
        view! { <p>"Measured by " <bdi>{who}</bdi> ", " <When at=taken.at zone /> "."</p> }
    });
    let assumed = known.assumed.iter().map(|assumption| {
        view! { <li>{assumption.to_string()}</li> }
    });
    let assumed = assumed.collect_view();
    let measure = may_measure.then(|| {
        let words = if pair.measured.is_some() {
            "Measure again"
        } else {
            "Measure"
        };
        view! { <a class="act" href=paths::measure(pair.id)>{words}</a> }
    });
    view! {
        <section class="bench-from">
            {taken}
            <ul>{assumed}</ul>
            <div class="acts">
                {measure}
                <a class="act" data-act="decline" href=paths::bench_paper(pair.id)>"To print or prop up"</a>
            </div>
        </section>
    }
    .into_any()
}

fn no_sheet(pair: &Pair, known: &AtTheBench, problem: &SheetProblem, may_measure: bool) -> AnyView {
    let cautions = cautions(&known.measured, false);
    let before: Vec<_> = cautions
        .iter()
        .filter(|caution| matches!(caution.step, Step::Before | Step::Teardown))
        .map(caution_block)
        .collect();
    let what = match problem {
        SheetProblem::NothingToGoBy => "There is nothing to go by yet.",
        SheetProblem::Impossible(_) => "A measurement can’t be right.",
    };
    let measure = may_measure.then(|| {
        view! { <p><a href=paths::measure(pair.id)>"Measure the pair"</a></p> }
    });
    view! {
        <section>
            <h2>{what}</h2>
            <p>{problem.to_string()}</p>
            {measure}
            {before}
        </section>
    }
    .into_any()
}

fn caution_block(caution: &Caution) -> AnyView {
    view! {
        <div class="bench-caution">
            <p>{caution.words}</p>
            <p class="bench-caution-more">{caution.more}</p>
        </div>
    }
    .into_any()
}

/// Parts of the sheet, in the order of the work; each begins with the cautions of its step.
const PARTS: [(&str, &[Topic], &[Step]); 9] = [
    ("Before you begin", &[], &[Step::Before]),
    ("Teardown", &[], &[Step::Teardown]),
    (
        "Welt and inseam",
        &[Topic::Welt, Topic::Inseam],
        &[Step::Welting],
    ),
    (
        "Filler and shank",
        &[Topic::Filler, Topic::Shank],
        &[Step::Filling],
    ),
    ("Sole", &[Topic::Sole], &[Step::Cementing]),
    ("Outsole seam", &[Topic::OutsoleSeam], &[Step::Stitching]),
    (
        "Heel",
        &[Topic::Heel, Topic::Stance, Topic::Nails],
        &[Step::Heel],
    ),
    ("Trimming and sanding", &[], &[Step::Sanding]),
    ("Dye, burnish, polish", &[], &[Step::Finishing]),
];

fn sheet_body(known: &AtTheBench, sheet: &BenchSheet) -> AnyView {
    let sections = sheet.sections();
    let parts = PARTS.map(|(title, topics, steps)| part(title, (topics, steps), sheet, &sections));
    let parts = parts.into_iter().flatten().collect_view();
    let estimates: Vec<&Section<'_>> = sections
        .iter()
        .filter(|section| section.topic == Topic::Estimates)
        .collect();
    let estimated = (!estimates.is_empty()).then(|| {
        let rows: Vec<_> = estimates
            .iter()
            .map(|section| opening_figures(section))
            .collect();
        view! {
            <section>
                <h2>"Estimated, not measured"</h2>
                {rows}
            </section>
        }
    });
    view! {
        {look_first(known, sheet)}
        {drawings(known, sheet)}
        <p class="bench-tolerance">"±: nineteen times of twenty the truth is no further off. Open a figure to see how it came about."</p>
        <div class="bench-parts">
            {parts}
            {estimated}
            {thicknesses(sheet)}
            {sizes(sheet)}
        </div>
    }
    .into_any()
}

/// What does not fit, what is missing, and what should be looked at again.
fn look_first(known: &AtTheBench, sheet: &BenchSheet) -> AnyView {
    let misfits = sheet.heel.misfits().iter().map(ToString::to_string);
    let doubts = sheet.doubts.iter().map(|doubt| doubt.words.clone());
    let missing = match &sheet.heel {
        Heel::Worked(_) => None,
        Heel::Missing(fields) => {
            let labels: Vec<_> = fields.iter().map(|field| field.label()).collect();
            Some(format!(
                "The heel is not worked out yet. Measure {}.",
                labels.join(", ")
            ))
        }
        Heel::Prescribed => Some(like_for_like(known)),
    };
    let lines: Vec<_> = misfits
        .chain(doubts)
        .chain(missing)
        .map(|words| view! { <li>{words}</li> })
        .collect();
    if lines.is_empty() {
        return ().into_any();
    }
    view! {
        <section class="bench-look" aria-labelledby="look-first">
            <h2 id="look-first">"Look at this first"</h2>
            <ul>{lines}</ul>
        </section>
    }
    .into_any()
}

/// What is said of a pair whose shoes differ on prescription: as they came, and nothing else.
fn like_for_like(known: &AtTheBench) -> String {
    let came: Vec<_> = Group::Heels
        .fields()
        .chain(Group::OldParts.fields())
        .filter_map(|field| {
            Some(format!(
                "{} {}",
                field.label(),
                known.measured.length(field)?
            ))
        })
        .collect();
    let came = match came.as_slice() {
        [] => String::new(),
        came => format!(" They came with {}.", came.join(", ")),
    };
    format!(
        "Left and right differ on a clinician’s written prescription: rebuild each shoe like for like, to the written heights. No height is worked out here, and none is advised.{came}"
    )
}

fn drawings(known: &AtTheBench, sheet: &BenchSheet) -> AnyView {
    let side = side_view(&known.measured, sheet).map(|drawing| {
        view! {
            <figure class="bench-figure">
                <div inner_html=drawing.svg(SCALE)></div>
                <figcaption>
                    "From the side, before and after. Dashed: the last as it should stand. Angles and thicknesses are to scale; the upper is only sketched."
                </figcaption>
            </figure>
        }
    });
    let outline = plan(&known.measured, sheet);
    view! {
        <section>
            <h2>"Drawn to scale"</h2>
            <div class="bench-figures">
                {side}
                <figure class="bench-figure">
                    <div inner_html=outline.svg(SCALE)></div>
                    <figcaption>
                        "The sole from below, with the run of the welt; every stitch of the outsole is drawn. The other shoe is its mirror image."
                    </figcaption>
                </figure>
            </div>
        </section>
    }
    .into_any()
}

fn part(
    title: &'static str,
    (topics, steps): (&[Topic], &[Step]),
    sheet: &BenchSheet,
    sections: &[Section<'_>],
) -> Option<AnyView> {
    let rows: Vec<_> = sections
        .iter()
        .filter(|section| topics.contains(&section.topic))
        .map(figure_rows)
        .collect();
    let cautions: Vec<_> = sheet
        .cautions
        .iter()
        .filter(|caution| steps.contains(&caution.step))
        .map(caution_block)
        .collect();
    let has_work = topics.is_empty() || !rows.is_empty();
    if !has_work || (rows.is_empty() && cautions.is_empty()) {
        return None;
    }
    let nails = topics
        .contains(&Topic::Nails)
        .then(|| figures::nails(sheet));
    Some(
        view! {
            <section class="bench-part">
                <h2>{title}</h2>
                {cautions}
                {rows}
                {nails}
            </section>
        }
        .into_any(),
    )
}

#[cfg(all(test, feature = "ssr"))]
mod tests;
