//! Rush and discount of the work that is picked: asked for, or as they stand.

use leptos::prelude::*;
use shared_types::adjust::{DiscountBy, ScopeTerms};
use shared_types::form::scope::ScopeField;
use shared_types::price::PriceRules;
use shared_types::tax::Rate;

use crate::elements::field::{TextField, Tick};
use crate::elements::work_picker::Picker;

/// Where rush and discount come from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TermsHere {
    /// They are asked for here.
    Asked,
    /// They stand agreed and go with whatever is picked.
    Standing(ScopeTerms),
}

/// The fields of rush and discount, or a line that says how they stand.
pub(super) fn terms_fields(picker: &Picker) -> AnyView {
    match &picker.terms {
        TermsHere::Asked => asked(picker),
        TermsHere::Standing(terms) => standing(terms),
    }
}

fn asked(picker: &Picker) -> AnyView {
    let (rush, discount, reason) = (
        ScopeField::Rush,
        ScopeField::Discount,
        ScopeField::DiscountReason,
    );
    let typed = |field: ScopeField| {
        let typed = picker.fields.one(&field.name(&picker.prefix));
        typed.trim().to_owned()
    };
    let open = [rush, discount, reason].into_iter();
    let open = open
        .into_iter()
        .any(|field| !typed(field).is_empty() || picker.problem(field).is_some());
    view! {
        <details class="work-picker-stage fold" open=open>
            <summary>"Rush and discount"</summary>
            <fieldset class="work-picker-own">
                <legend class="visually-hidden">"Rush and discount"</legend>
                <Tick
                    label="Rush: it goes before others"
                    name=rush.name(&picker.prefix)
                    checked=picker.fields.has(&rush.name(&picker.prefix), "yes")
                    hint=surcharge_words(&picker.rules)
                />
                <div class="field-row">
                    <TextField
                        label="Discount"
                        name=discount.name(&picker.prefix)
                        value=typed(discount)
                        error=picker.problem(discount)
                        hint="An amount such as 15.00, or a percentage such as 10 %."
                        complete="off"
                        focus=picker.is_first(discount)
                    />
                    <TextField
                        label="Why there is a discount"
                        name=reason.name(&picker.prefix)
                        value=typed(reason)
                        error=picker.problem(reason)
                        hint="As the customer reads it: second pair."
                        complete="off"
                        focus=picker.is_first(reason)
                    />
                </div>
            </fieldset>
        </details>
    }
    .into_any()
}

fn surcharge_words(rules: &PriceRules) -> String {
    if rules.rush == Rate::ZERO {
        "The shop takes no surcharge for it; the owner can set one.".to_owned()
    } else {
        format!("Adds {} % of the labour.", rules.rush)
    }
}

fn standing(terms: &ScopeTerms) -> AnyView {
    let rush = terms.rush.then(|| "rush".to_owned());
    let discount = terms.discount.as_ref().map(|discount| match discount.by {
        DiscountBy::Percent(rate) => format!("{rate} % off, {}", discount.reason),
        DiscountBy::Amount(amount) => format!("{amount} off, {}", discount.reason),
    });
    let words: Vec<String> = rush.into_iter().chain(discount).collect();
    if words.is_empty() {
        return ().into_any();
    }
    let words = format!("As agreed, and in each choice: {}.", words.join("; "));
    view! { <p class="field-hint">{words}</p> }.into_any()
}
