//! Every URL of the program: the router's pattern and the link's builder side by side.

use std::fmt::Display;

macro_rules! paths {
    ($($(#[$doc:meta])* $pattern:ident $builder:ident ($($part:ident),*) = $text:literal;)*) => {
        $(
            $(#[$doc])*
            pub const $pattern: &str = $text;

            $(#[$doc])*
            pub fn $builder($($part: impl Display),*) -> String {
                let path = $pattern.to_owned();
                $(let path = path.replace(concat!("{", stringify!($part), "}"), &$part.to_string());)*
                path
            }
        )*

        /// Each pattern with its builder's result for parts that are all `x`.
        #[cfg(test)]
        fn all() -> Vec<(&'static str, String)> {
            vec![$(($pattern, $builder($({ let _ = stringify!($part); "x" }),*))),*]
        }
    };
}

paths! {
    /// The shop's front page.
    HOME home() = "/";
    /// Whether the program is up.
    HEALTH health() = "/healthz";
    /// The stylesheet.
    STYLE style() = "/assets/style.css";
    /// A font of the stylesheet.
    FONT font(name) = "/assets/fonts/{name}";
    /// The sign in the browser's tab.
    ICON icon() = "/assets/icon.svg";
    /// The script that loads the islands.
    LOADER loader() = "/assets/loader.js";
    /// A file of the islands.
    ISLAND island(name) = "/assets/islands/{name}";
    /// The one-time set-up page.
    SETUP setup(code) = "/setup/{code}";

    /// The customer's page.
    TICKET ticket(key) = "/t/{key}";
    /// An offer of added scope.
    OFFER offer(key, sheet) = "/t/{key}/offer/{sheet}";
    /// Gives a word on an offer.
    GIVE_WORD give_word(key, sheet) = "/t/{key}/offer/{sheet}/word";
    /// Takes a word back.
    TAKE_BACK take_back(key, sheet) = "/t/{key}/offer/{sheet}/take-back";
    /// The receipt of a word.
    WORD word(key, sheet) = "/t/{key}/word/{sheet}";
    /// Asks the shop something.
    ASK ask(key) = "/t/{key}/ask";
    /// A picture on the customer's page.
    PHOTO photo(key, digest) = "/t/{key}/photo/{digest}";
    /// The pickup as a calendar entry.
    PICKUP pickup(key) = "/t/{key}/pickup.ics";
    /// The receipt of payment and hand-over.
    RECEIPT receipt(key) = "/t/{key}/receipt";

    /// Today: what needs someone.
    TODAY today() = "/shop";
    /// Signs in.
    SIGN_IN sign_in() = "/shop/sign-in";
    /// Signs out.
    SIGN_OUT sign_out() = "/shop/sign-out";
    /// The bench's queue.
    BENCH bench() = "/shop/bench";
    /// The plan of all open pairs.
    PLAN plan() = "/shop/plan";
    /// What a change would do to the plan.
    WHAT_IF what_if() = "/shop/plan/what-if";
    /// Finds a ticket.
    FIND find() = "/shop/find";
    /// Takes pairs in.
    INTAKE intake() = "/shop/intake";
    /// A ticket for the counter.
    SHOP_TICKET shop_ticket(id) = "/shop/tickets/{id}";
    /// The claim ticket to print.
    CLAIM claim(id) = "/shop/tickets/{id}/claim";
    /// Records a payment.
    PAY pay(id) = "/shop/tickets/{id}/pay";
    /// Gives back what was paid too much.
    GIVE_BACK give_back(id) = "/shop/tickets/{id}/give-back";
    /// Hands pairs over.
    HAND_OVER hand_over(id) = "/shop/tickets/{id}/hand-over";
    /// Renews the customer's link.
    RENEW_LINK renew_link(id) = "/shop/tickets/{id}/link";
    /// Stops the customer's link.
    REVOKE_LINK revoke_link(id) = "/shop/tickets/{id}/link/revoke";
    /// Changes how the customer is reached.
    CONTACT contact(id) = "/shop/tickets/{id}/contact";
    /// A pair for the bench.
    PAIR pair(id) = "/shop/pairs/{id}";
    /// Moves a pair's stage.
    MOVE_STAGE move_stage(id) = "/shop/pairs/{id}/stage";
    /// Places or lifts a hold.
    SET_HOLD set_hold(id) = "/shop/pairs/{id}/hold";
    /// Starts on agreed work.
    START_WORK start_work(id) = "/shop/pairs/{id}/start";
    /// Posts a progress note.
    POST_NOTE post_note(id) = "/shop/pairs/{id}/note";
    /// A pair's bench sheet.
    BENCH_SHEET bench_sheet(id) = "/shop/pairs/{id}/sheet";
    /// The bench sheet to prop up: on paper, or on a tablet.
    BENCH_PAPER bench_paper(id) = "/shop/pairs/{id}/sheet/paper";
    /// Writes down what was measured on a pair.
    MEASURE measure(id) = "/shop/pairs/{id}/measure";
    /// Composes an offer.
    COMPOSE compose(id) = "/shop/pairs/{id}/offer";
    /// Shows a prepared offer as the customer will see it.
    PREVIEW preview(id) = "/shop/pairs/{id}/offer/preview";
    /// Sends the prepared offer.
    SEND_OFFER send_offer(id) = "/shop/pairs/{id}/offer/send";
    /// Withdraws the open offer.
    WITHDRAW withdraw(id) = "/shop/pairs/{id}/offer/withdraw";
    /// Records a word given at the counter or by telephone.
    TOLD_WORD told_word(id) = "/shop/pairs/{id}/word";
    /// Changes the agreed scope.
    EDIT_SCOPE edit_scope(id) = "/shop/pairs/{id}/scope";
    /// Every revision of a pair's scope.
    REVISIONS revisions(id) = "/shop/pairs/{id}/revisions";
    /// A picture for staff.
    SHOP_PHOTO shop_photo(digest) = "/shop/photos/{digest}";
    /// Letters and their state.
    LETTERS letters() = "/shop/letters";
    /// One letter.
    LETTER letter(id) = "/shop/letters/{id}";
    /// Sends a letter again that was given up.
    RETRY_LETTER retry_letter(id) = "/shop/letters/{id}/retry";
    /// The price book.
    PRICES prices() = "/shop/prices";
    /// One service of the price book.
    SERVICE service(id) = "/shop/prices/{id}";
    /// What supplies cost the shop.
    SUPPLIES supplies() = "/shop/supplies";
    /// One supply.
    SUPPLY supply(id) = "/shop/supplies/{id}";
    /// Sets what an hour at the bench costs the shop.
    BENCH_HOUR bench_hour() = "/shop/bench-hour";
    /// The rules between services.
    RULES rules() = "/shop/rules";
    /// A new rule of that kind.
    NEW_RULE new_rule(code) = "/shop/rules/new/{code}";
    /// One rule.
    RULE rule(id) = "/shop/rules/{id}";
    /// The shop's settings.
    SETTINGS settings() = "/shop/settings";
    /// Who works at the bench, and what stands there.
    HANDS hands() = "/shop/settings/hands";
    /// Who works here.
    PEOPLE people() = "/shop/people";
    /// One of them.
    PERSON person(id) = "/shop/people/{id}";
}

/// Whether a path leads to a page of the back office, and nowhere else: where the sign-in may go
/// on to.
pub fn is_of_the_shop(path: &str) -> bool {
    let inside = path
        .strip_prefix(TODAY)
        .is_some_and(|rest| rest.is_empty() || rest.starts_with(['/', '?']));
    inside
        && path
            .bytes()
            .all(|byte| byte.is_ascii_graphic() && byte != b'\\')
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_sign_in_leads_to_no_other_site() {
        assert!(super::is_of_the_shop("/shop/bench?done=moved"));
        for elsewhere in [
            "//evil.example",
            "/shopping",
            "https://evil.example/shop",
            "/shop/\\x",
            "/shop\n",
        ] {
            assert!(!super::is_of_the_shop(elsewhere), "{elsewhere}");
        }
    }

    #[test]
    fn each_builder_fills_its_whole_pattern() {
        for (pattern, built) in super::all() {
            let expected: Vec<&str> = pattern
                .split('/')
                .map(|part| if part.starts_with('{') { "x" } else { part })
                .collect();
            assert_eq!(built, expected.join("/"), "{pattern}");
        }
    }
}
