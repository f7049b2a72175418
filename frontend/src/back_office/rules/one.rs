//! The page of one rule, and of a new one.

use leptos::prelude::*;
use shared_types::form::rule::{RuleAct, RuleField};
use shared_types::paths;
use shared_types::scope::rules::{Reason, Standing};

use super::form::RuleForm;
use super::{Origin, RuleRow, marks};
use crate::document::{BackRoom, Desk, Room};
use crate::elements::pair_words::begun;
use crate::elements::to_put_right::ToPutRight;

/// Props of one rule.
#[derive(Clone, Debug)]
pub struct RuleView {
    /// Who works on it.
    pub desk: Desk,
    /// The rule, with all its services.
    pub row: RuleRow,
    /// Its form: the whole rule if it is the shop's own, else its reasons.
    pub form: RuleForm,
    /// The shipped words, if the shop has its own in their place.
    pub shipped: Option<Reason>,
}

/// One rule: what it says and why, its switch, its words.
#[component]
pub fn RulePage(props: RuleView) -> impl IntoView {
    let RuleView {
        desk,
        row,
        form,
        shipped,
    } = props;
    let own = row.origin == Origin::Own;
    let case = (!row.case.is_empty()).then(|| {
        let case = format!("Holds {}.", row.case.join(", "));
        view! { <p>{case}</p> }
    });
    let marks = marks(&row);
    let marks = (!marks.is_empty()).then(|| view! { <p>{marks.join(" ")}</p> });
    let (fields, heading) = if own {
        (form.whole(), "Change it")
    } else {
        (form.reasons(), "Say it in your words")
    };
    let like = format!("{}?like={}", paths::new_rule(row.kind.code()), row.id);
    let back = shipped.map(|reason| shipped_words(&row, &reason));
    let last = if own {
        view! {
            <section>
                <h2>"No longer needed"</h2>
                <form method="post" action=paths::rule(&row.id)>
                    {button(RuleAct::Remove, "Remove this rule")}
                </form>
            </section>
        }
        .into_any()
    } else {
        view! {
            <section>
                <h2>"Do it differently"</h2>
                <p>
                    "What a shipped rule says stays as it is. Switch it off, and "
                    <a href=like>"write a rule of your own from it"</a> "."
                </p>
            </section>
        }
        .into_any()
    };
    let wrong = form.errors.iter().count();
    view! {
        <BackRoom desk title="A rule".to_owned() here=Room::Prices>
            <div class="page-head">
                <h1>{row.kind.label()}</h1>
                <p><a href=paths::rules()>"What goes together"</a></p>
            </div>
            <p class="rule-says">{begun(&row.words)} "."</p>
            {case}
            {marks}
            <form method="post" action=paths::rule(&row.id)>
                {match row.standing {
                    Standing::On => button(RuleAct::SwitchOff, "Switch it off"),
                    Standing::Off => button(RuleAct::SwitchOn, "Switch it on"),
                }}
            </form>
            <section>
                <h2>{heading}</h2>
                <ToPutRight count=wrong />
                <form class="form-rows" method="post" action=paths::rule(&row.id)>
                    {fields}
                    <div class="acts">
                        <button class="act" name=RuleField::Act.name() value=RuleAct::Save.code()>"Save"</button>
                    </div>
                </form>
            </section>
            {back}
            {last}
        </BackRoom>
    }
}

fn shipped_words(row: &RuleRow, reason: &Reason) -> AnyView {
    view! {
        <section>
            <h2>"As it was shipped"</h2>
            <dl class="facts">
                <div><dt>"For the bench"</dt><dd>{reason.bench.to_string()}</dd></div>
                <div><dt>"For the customer"</dt><dd>{reason.customer.to_string()}</dd></div>
            </dl>
            <form method="post" action=paths::rule(&row.id)>
                {button(RuleAct::AsShipped, "Take these words again")}
            </form>
        </section>
    }
    .into_any()
}

fn button(act: RuleAct, words: &'static str) -> AnyView {
    view! {
        <button class="act" data-act="plain" name=RuleField::Act.name() value=act.code()>{words}</button>
    }
    .into_any()
}

/// Props of a new rule.
#[derive(Clone, Debug)]
pub struct NewRule {
    /// Who works on it.
    pub desk: Desk,
    /// Its form.
    pub form: RuleForm,
}

/// A new rule of one kind.
#[component]
pub fn NewRulePage(props: NewRule) -> impl IntoView {
    let NewRule { desk, form } = props;
    let kind = form.kind;
    let wrong = form.errors.iter().count();
    view! {
        <BackRoom desk title="A new rule".to_owned() here=Room::Prices>
            <div class="page-head">
                <h1>"A new rule: " {kind.label()}</h1>
                <p><a href=paths::rules()>"What goes together"</a></p>
            </div>
            <p>{kind.about()}</p>
            <ToPutRight count=wrong />
            <form class="form-rows" method="post" action=paths::new_rule(kind.code())>
                {form.whole()}
                <div class="acts"><button class="act">"Add the rule"</button></div>
            </form>
        </BackRoom>
    }
}
