//! The command on its example, on a plan worked by hand, and on files with something wrong.

use std::fs;
use std::path::Path;

use super::run;

fn example(json: bool) -> String {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/plan.example.json");
    run(&file, json).unwrap()
}

fn plan(text: &str) -> anyhow::Result<String> {
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("shop.json");
    fs::write(&file, text)?;
    run(&file, false)
}

/// One hand, steps that never vary: 300 minutes at the welt, a bond of 12 hours, 60 at the heel.
/// The welt is sewn by 14:00, the heel done on Wednesday by 10:00. An answer at 12:30 still lets the
/// welt be sewn by 17:30. Closed on Wednesday, the heel waits for Thursday.
#[test]
fn a_plan_is_that_worked_by_hand() {
    let steps = r#"[
        {"name": "welt", "labour": {"usual": 300, "p90": 300}, "rest": {"at-least": 720}},
        {"name": "heel", "labour": {"usual": 60, "p90": 60}, "station": "lathe"}
    ]"#;
    let shop = r#"{
        "shop": "Juniper Row", "now": "2026-03-10 09:00", "zone": "America/Denver",
        "hours": {"tuesday": "9:00-17:30", "wednesday": "9:00-17:30", "thursday": "9:00–17:30"},
        "hands": [{"name": "Mina", "minutes": {"tuesday": 510, "wednesday": 510, "thursday": 510}}],
        "stations": ["lathe"],
        "draws": {"seed": 1, "count": 10},
        "pairs": [{"tag": "41", "promised": "2026-03-10", "steps": STEPS}],
        "what-if": [
            {"question": "close", "changes": [{"change": "close", "day": "2026-03-11"}]},
            {"question": "help", "changes": [{"change": "help", "hand":
                {"name": "Tobias", "week": [0, 60, 0, 0, 0, 0, 0]}}]}
        ],
        "offers": [{"tag": "41", "choices": [{"name": "welt and heel", "steps": STEPS}]}]
    }"#;
    assert_eq!(
        plan(&shop.replace("STEPS", steps)).unwrap(),
        "\
Juniper Row
Tue 10 Mar 2026, 09:00; 10 draws, seed 1

pair  bench        50 %        80 %        95 %        promised    kept
41    6 h          Wed 11 Mar  Wed 11 Mar  Wed 11 Mar  Tue 10 Mar  0 %
bench: what is left, with 80 % chance

At the bench on Tue 10 Mar, at the usual minutes
  Mina
    09:00  41: welt

Promises kept with less than 80 % chance
  41: Tue 10 Mar is kept with 0 % chance; with 80 % it is ready by Wed 11 Mar
    - rests 12 h
    - finds the bench closed for 7 h
    - is worked on for 6 h

Offer for 41
  welt and heel: ready Wed 11 Mar (6 h at the bench)
    answer by Tue 10 Mar, 12:30 and it stays so
    answer at Wed 11 Mar, 09:00: Thu 12 Mar
    answer at Thu 12 Mar, 09:00: Tue 17 Mar
    answer at Tue 17 Mar, 09:00: Wed 18 Mar
    answer at Wed 18 Mar, 09:00: Thu 19 Mar
    answer at Thu 19 Mar, 09:00: Tue 24 Mar

What if: close
  41: Wed 11 Mar → Thu 12 Mar; promised Tue 10 Mar, kept 0 % → 0 %
  Nothing is promised by asking.

What if: help
  nothing moves

On average 1.0 planned pairs in the shop, each for 2.0 days more.
"
    );
}

#[test]
fn the_example_shows_a_shop_and_all_that_can_be_asked() {
    let tables = example(false);
    for words in [
        "1040 ivory court shoes",
        "Promises kept with less than 80 % chance\n  1045 tan safety boots",
        "for a free hand",
        "Offer for 1042 dark green work boots\n  leather welt, stacked leather heel: ready",
        "and it stays so",
        "What if: close on Friday\n  1043 black 360° brogues",
        "Nothing is promised by asking.",
    ] {
        assert!(tables.contains(words), "{words}\n{tables}");
    }
    assert_eq!(tables, example(false), "the same seed tells the same days");
}

#[test]
fn json_holds_every_step_and_the_days_of_all_draws() {
    let answer: serde_json::Value = serde_json::from_str(&example(true)).unwrap();
    let pair = &answer["pairs"][0];
    assert_eq!(pair["plan"]["steps"][0]["station"], "finisher");
    let days = pair["forecast"]["days"].as_array().unwrap();
    let counted: u64 = days.iter().filter_map(|day| day[1].as_u64()).sum();
    assert_eq!(counted, 500);
    assert_eq!(answer["offers"][0]["choices"].as_array().unwrap().len(), 3);
    let waits = &answer["pairs"][5]["plan"];
    assert_eq!(
        (&waits["ready"], &waits["reasons"][0]["reason"]),
        (&serde_json::Value::Null, &serde_json::Value::from("word"))
    );
}

#[test]
fn what_is_wrong_with_a_file_is_said() {
    let refused = |text: &str| format!("{:#}", plan(text).unwrap_err());
    let shop = |now: &str, rest: &str| {
        format!(
            r#"{{"now": "{now}", "zone": "Etc/UTC", "hours": {{"monday": "9:00-17:30"}},
            "hands": [{{"name": "Mina", "minutes": 400}}], {rest}}}"#
        )
    };
    let now = "2026-03-09 09:00";
    let pair = r#""pairs": [{"tag": "41", "steps": [{"name": "stitch", "labour": 20, "station": "lathe"}]}]"#;
    assert!(refused(&shop(now, pair)).contains("“stitch” needs lathe"));
    assert!(refused(&shop("tomorrow", r#""pairs": []"#)).contains("2026-03-10 09:00"));
    let no_draws = r#""pairs": [], "draws": {"seed": 1, "count": 0}"#;
    assert!(refused(&shop(now, no_draws)).contains("at least one draw"));
    let misspelt = r#""pairs": [{"tag": "41", "steps": [{"name": "stitch", "labor": 20}]}]"#;
    assert!(refused(&shop(now, misspelt)).contains("labor"));
    assert!(refused(&shop(now, r#""pairs": [], "chance": 100"#)).contains("from 1 to 99"));
}
