//! Pairs as they stand on the counter, seen from the side with the toe to the left.

use super::paint::{
    Canvas, INK, Ink, LEATHER, OCHRE, OXBLOOD, PAPER, RUBBER, VERDIGRIS, mixed, oval,
};

/// What a pair looks like.
#[derive(Clone, Copy)]
pub(super) struct Look {
    colour: u32,
    shape: Shape,
    sole: Sole,
    parts: &'static [Part],
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Shape {
    Ankle,
    Low,
    Tall,
    Court,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Sole {
    Leather,
    Rubber,
    Lugs,
    Pump,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Laces,
    LowLaces,
    ToeCap,
    HardToe,
    Holes,
    Strap,
    Elastic,
    Tabs,
    Zip,
    Rand,
}

impl Look {
    pub(super) const WORK: Self = look(Shape::Ankle, Sole::Rubber, &[Part::Laces, Part::ToeCap]);
    pub(super) const PULL_ON: Self = look(Shape::Ankle, Sole::Rubber, &[Part::Tabs]);
    pub(super) const SAFETY: Self = look(Shape::Ankle, Sole::Lugs, &[Part::Laces, Part::HardToe]);
    pub(super) const HIKING: Self = look(Shape::Ankle, Sole::Lugs, &[Part::Laces, Part::Rand]);
    pub(super) const ELASTIC: Self = look(Shape::Ankle, Sole::Leather, &[Part::Elastic]);
    pub(super) const BROGUE: Self = look(
        Shape::Low,
        Sole::Leather,
        &[Part::LowLaces, Part::ToeCap, Part::Holes],
    );
    pub(super) const DERBY: Self = look(Shape::Low, Sole::Leather, &[Part::LowLaces]);
    pub(super) const LOAFER: Self = look(Shape::Low, Sole::Leather, &[Part::Strap]);
    pub(super) const RIDING: Self = look(Shape::Tall, Sole::Leather, &[Part::Zip]);
    pub(super) const COURT: Self = look(Shape::Court, Sole::Pump, &[]);

    /// The same in this colour.
    pub(super) const fn in_colour(self, colour: u32) -> Self {
        Self { colour, ..self }
    }
}

const fn look(shape: Shape, sole: Sole, parts: &'static [Part]) -> Look {
    Look {
        colour: LEATHER,
        shape,
        sole,
        parts,
    }
}

const ANKLE: &str = "M 96 566 C 82 500 116 444 204 424 C 320 398 420 372 482 306 C 508 268 520 198 \
    524 112 C 600 96 720 92 806 104 C 822 210 806 320 816 430 C 824 500 832 540 822 564 \
    C 700 566 640 576 566 590 C 470 608 300 614 200 600 C 150 592 112 582 96 568 Z";
const LOW: &str = "M 92 572 C 80 520 108 480 196 462 C 320 436 420 416 500 352 C 528 330 552 318 \
    580 316 C 606 350 690 372 786 330 C 806 326 814 336 814 352 C 812 430 836 520 824 564 \
    C 700 566 640 576 566 590 C 470 608 300 614 200 600 C 150 592 108 584 92 572 Z";
const TALL: &str = "M 96 566 C 82 500 116 444 204 424 C 320 398 420 372 478 312 C 512 266 520 120 \
    500 -40 C 494 -120 500 -170 506 -206 C 600 -224 740 -226 822 -206 C 842 -90 838 60 812 200 C \
    800 320 806 360 816 430 C 824 500 832 540 822 564 \
    C 700 566 640 576 566 590 C 470 608 300 614 200 600 C 150 592 112 582 96 568 Z";
const COURT: &str = "M 84 594 C 84 552 128 522 210 496 C 260 480 300 470 330 478 C 420 512 560 470 \
    660 388 C 720 340 760 300 790 268 C 812 270 824 288 824 320 C 822 380 812 400 790 424 C 700 470 \
    620 520 520 576 C 480 600 440 604 380 604 L 100 604 Z";

/// Two of a pair, one behind the other.
pub(super) fn pair(canvas: &mut Canvas, look: &Look) {
    let (y, size) = match look.shape {
        Shape::Tall => (262, 84),
        Shape::Ankle => (118, 100),
        Shape::Low => (86, 104),
        Shape::Court => (96, 104),
    };
    canvas.place((0, 0), (100, 100));
    canvas.shadow(&oval((600, 812), (480, 20)));
    canvas.place((242, y - 34), (size, size));
    one(canvas, &look.in_colour(mixed(look.colour, INK, 70)));
    canvas.place((86, y), (size, size));
    one(canvas, look);
    canvas.place((0, 0), (100, 100));
}

fn one(canvas: &mut Canvas, look: &Look) {
    let upper = match look.shape {
        Shape::Ankle => ANKLE,
        Shape::Low => LOW,
        Shape::Tall => TALL,
        Shape::Court => COURT,
    };
    let shade = if look.shape == Shape::Court { 50 } else { 110 };
    let dark = mixed(look.colour, 0x33_20_10, shade);
    let light = mixed(look.colour, 0xff_f4_e0, 60);
    sole(canvas, look.sole);
    canvas.fill(Ink::Down((100, light), (600, dark)), upper);
    canvas.within(upper);
    canvas.fill(
        Ink::Spot((250, 452), 190, mixed(look.colour, 0xff_ff_ff, 150), 150),
        upper,
    );
    canvas.fill(
        Ink::Spot((720, 300), 240, mixed(look.colour, 0xff_ff_ff, 90), 90),
        upper,
    );
    for width in [70, 48, 30, 16] {
        canvas.line(Ink::Thin(INK, 18), width, upper);
    }
    if look.shape != Shape::Court {
        seams(canvas, look);
    }
    for part in look.parts {
        dress(canvas, *part, look.colour);
    }
    canvas.everywhere();
    canvas.line(Ink::Thin(INK, 150), 3, upper);
    opening(canvas, look.shape, dark);
}

/// The seams that any laced or pulled-on upper has.
fn seams(canvas: &mut Canvas, look: &Look) {
    let thread = mixed(look.colour, OCHRE, 150);
    let back = "M 700 300 C 690 420 676 500 668 578";
    let vamp = "M 470 320 C 500 420 470 500 420 578";
    let lines: &[&str] = match look.shape {
        Shape::Low => &[
            "M 470 380 C 530 450 520 520 470 578",
            "M 716 372 C 706 450 690 520 684 578",
        ],
        Shape::Ankle | Shape::Tall => &[vamp, back, "M 520 250 C 620 268 720 262 810 250"],
        Shape::Court => &[],
    };
    for line in lines {
        canvas.line(Ink::Thin(INK, 120), 4, line);
        canvas.dash(thread, 3, (9, 7), line);
    }
}

fn opening(canvas: &mut Canvas, shape: Shape, dark: u32) {
    let (inside, rim) = match shape {
        Shape::Ankle => (
            "M 524 112 C 600 92 720 88 806 104 C 730 124 600 128 524 112 Z",
            8,
        ),
        Shape::Low => (
            "M 580 316 C 640 296 740 304 800 330 C 700 366 620 352 580 316 Z",
            8,
        ),
        Shape::Tall => (
            "M 506 -206 C 600 -228 740 -230 822 -206 C 740 -184 600 -184 506 -206 Z",
            8,
        ),
        Shape::Court => (
            "M 330 478 C 440 446 620 400 790 268 C 740 330 640 420 520 462 C 450 486 380 492 330 478 Z",
            7,
        ),
    };
    canvas.fill(Ink::Flat(mixed(dark, 0x8a_5a_34, 60)), inside);
    canvas.line(Ink::Thin(INK, 160), rim / 2, inside);
}

fn dress(canvas: &mut Canvas, part: Part, colour: u32) {
    let dark = mixed(colour, INK, 120);
    let thread = mixed(colour, OCHRE, 150);
    match part {
        Part::Laces => laces(canvas, dark, &LACES),
        Part::LowLaces => laces(canvas, dark, &LOW_LACES),
        Part::ToeCap => {
            let cap = "M 250 400 C 296 450 296 520 268 578";
            canvas.line(Ink::Thin(INK, 130), 4, cap);
            canvas.sew(thread, 3, (9, 7), "M 238 404 C 282 454 282 520 254 578");
        }
        Part::HardToe => {
            let cap = "M 60 590 L 60 380 L 264 396 C 312 450 310 520 284 590 Z";
            canvas.fill(Ink::Down((410, 0x5a_53_4e), (590, 0x2b_27_25)), cap);
            canvas.fill(Ink::Spot((190, 456), 110, 0xc9_c2_b6, 150), cap);
            canvas.line(Ink::Thin(INK, 170), 4, cap);
        }
        Part::Holes => {
            for at in HOLES {
                canvas.fill(Ink::Flat(INK), &oval(at, (5, 5)));
            }
        }
        Part::Strap => strap(canvas, colour),
        Part::Elastic => elastic(canvas),
        Part::Tabs => {
            canvas.fill(
                Ink::Flat(dark),
                "M 610 90 L 664 90 L 658 216 C 640 232 628 232 612 216 Z",
            );
            canvas.sew(thread, 3, (9, 7), "M 620 96 L 620 210 L 650 210 L 654 96");
        }
        Part::Zip => {
            canvas.line(
                Ink::Flat(0x1b_18_18),
                16,
                "M 640 -200 C 632 60 640 260 650 420",
            );
            canvas.sew(
                STEEL_TEETH,
                8,
                (3, 9),
                "M 640 -200 C 632 60 640 260 650 420",
            );
            canvas.fill(Ink::Flat(0xc9_a5_5c), &oval((650, 424), (12, 20)));
        }
        Part::Rand => {
            let rand =
                "M 60 600 L 60 500 C 200 524 340 540 520 540 C 660 540 760 520 840 500 L 840 600 Z";
            canvas.fill(Ink::Down((500, 0x4a_46_43), (590, 0x2b_28_26)), rand);
            canvas.line(Ink::Thin(INK, 160), 3, rand);
        }
    }
}

/// Where the lugs of a coarse sole stand along its bottom.
const LUGS: [(i16, i16); 8] = [
    (112, 640),
    (168, 656),
    (226, 668),
    (284, 674),
    (342, 676),
    (400, 674),
    (458, 666),
    (514, 652),
];

fn lug((x, y): (i16, i16)) -> String {
    let (top, bottom) = (y - 12, y + 18);
    format!(
        "M {x} {top} L {} {top} L {} {bottom} L {x} {bottom} Z",
        x + 42,
        x + 40
    )
}

const STEEL_TEETH: u32 = 0xc4_c1_b8;

/// The strap of a loafer, and the seam before it.
fn strap(canvas: &mut Canvas, colour: u32) {
    let dark = mixed(colour, INK, 120);
    let light = mixed(colour, 0xff_f4_e0, 40);
    let strap = "M 400 380 C 440 440 450 520 432 590 L 540 590 C 560 510 548 420 500 340 Z";
    let slot = "M 446 446 L 520 432 L 526 452 L 486 470 L 452 468 Z";
    canvas.fill(Ink::Down((360, light), (590, dark)), strap);
    canvas.line(Ink::Thin(INK, 140), 4, strap);
    canvas.fill(Ink::Flat(dark), slot);
    canvas.line(
        Ink::Thin(INK, 120),
        4,
        "M 196 470 C 262 446 352 440 402 412",
    );
    let thread = mixed(colour, OCHRE, 150);
    canvas.sew(thread, 3, (9, 7), "M 200 484 C 268 460 352 452 408 426");
}

fn elastic(canvas: &mut Canvas) {
    let gore = "M 590 104 L 730 100 C 726 190 700 300 660 352 C 618 300 596 190 590 90 Z";
    canvas.fill(Ink::Flat(0x2b_25_22), gore);
    canvas.within(gore);
    for x in [606, 622, 638, 654, 670, 686, 702, 718] {
        canvas.line(
            Ink::Thin(0x8d_82_76, 120),
            4,
            &format!("M {x} 112 L {x} 380"),
        );
    }
    canvas.within(ANKLE);
    canvas.line(Ink::Thin(INK, 160), 4, gore);
}

/// Laces, each from the edge to its eyelet.
const LACES: [(i16, i16, i16, i16); 5] = [
    (500, 296, 556, 318),
    (512, 256, 570, 274),
    (518, 216, 578, 230),
    (522, 176, 584, 186),
    (524, 138, 588, 146),
];

const LOW_LACES: [(i16, i16, i16, i16); 3] = [
    (470, 378, 520, 408),
    (502, 354, 552, 384),
    (534, 334, 582, 362),
];

/// The holes of a brogue, along the cap and along the wing.
const HOLES: [(i16, i16); 11] = [
    (262, 436),
    (276, 462),
    (284, 490),
    (284, 518),
    (278, 546),
    (504, 420),
    (520, 446),
    (528, 474),
    (526, 502),
    (514, 530),
    (496, 556),
];

/// The strip with the eyelets, and a lace through each.
fn laces(canvas: &mut Canvas, dark: u32, rows: &[(i16, i16, i16, i16)]) {
    for (x, y, to_x, to_y) in rows {
        canvas.fill(Ink::Flat(INK), &oval((*to_x, *to_y), (8, 8)));
        canvas.line(Ink::Flat(dark), 13, &format!("M {x} {y} L {to_x} {to_y}"));
        canvas.line(
            Ink::Flat(0xd8_c3_97),
            8,
            &format!("M {x} {y} L {to_x} {to_y}"),
        );
    }
}

fn sole(canvas: &mut Canvas, sole: Sole) {
    let under = "M 76 574 C 76 606 100 640 180 660 C 290 682 430 684 540 656 L 606 632 L 606 692 L \
        838 692 C 844 660 846 620 842 564 Z";
    match sole {
        Sole::Leather => {
            canvas.fill(Ink::Down((570, 0x8a_5a_34), (692, 0x3d_27_1a)), under);
            for y in [628, 646, 664] {
                canvas.line(Ink::Thin(INK, 90), 2, &format!("M 606 {y} L 842 {y}"));
            }
            canvas.fill(
                Ink::Flat(RUBBER),
                "M 606 680 L 840 680 L 838 694 L 606 694 Z",
            );
        }
        Sole::Rubber => {
            canvas.fill(Ink::Down((570, 0x6b_5a_48), (692, 0x2a_26_24)), under);
            canvas.line(Ink::Thin(INK, 120), 3, "M 606 650 L 842 650");
        }
        Sole::Lugs => {
            canvas.fill(Ink::Down((570, 0x55_4c_44), (692, 0x24_21_1f)), under);
            for at in LUGS
                .into_iter()
                .chain([(610, 690), (670, 690), (730, 690), (790, 690)])
            {
                canvas.fill(Ink::Flat(0x2b_27_25), &lug(at));
            }
        }
        Sole::Pump => {
            let heel = "M 716 440 C 760 420 800 400 828 330 C 846 420 836 560 800 716 L 764 716 C \
                766 600 756 500 716 440 Z";
            canvas.fill(Ink::Across((716, 0xd8_c9_a6), (836, 0x9c_8a_66)), heel);
            canvas.line(Ink::Thin(INK, 120), 3, heel);
            canvas.fill(
                Ink::Flat(RUBBER),
                "M 762 704 L 803 704 L 800 722 L 764 722 Z",
            );
            let bottom = "M 80 596 C 90 614 120 616 180 616 L 400 614 C 480 612 540 580 716 450 L \
                700 440 C 540 560 470 598 380 600 L 100 600 Z";
            canvas.fill(Ink::Flat(0x6a_48_2c), bottom);
            return;
        }
    }
    canvas.line(Ink::Thin(INK, 150), 3, under);
    let welt = "M 70 560 C 66 584 80 596 110 606 C 200 640 430 644 566 620 C 640 604 700 594 850 592 L \
        850 556 Z";
    canvas.fill(Ink::Down((560, 0xb0_82_4e), (640, 0x74_4e_2c)), welt);
    canvas.line(Ink::Thin(INK, 120), 3, welt);
    canvas.sew(
        OCHRE,
        4,
        (11, 8),
        "M 82 586 C 140 612 250 626 360 626 C 480 624 560 606 640 592 C 700 582 770 580 842 578",
    );
}

/// What a thicker sole does to the heel: the old bottom dashed, the new one drawn, and the line
/// of the foot over both.
pub(super) fn pitch(canvas: &mut Canvas) {
    canvas.place((110, 46), (108, 108));
    canvas.shadow(&oval((470, 744), (400, 14)));
    let sole = "M 76 566 C 74 616 100 660 180 684 C 290 708 430 710 540 684 L 606 662 L 606 598 L \
        846 592 L 846 560 Z";
    canvas.fill(Ink::Down((574, 0x57_4d_45), (710, 0x24_21_1f)), sole);
    for (x, y) in LUGS {
        canvas.fill(Ink::Flat(0x2b_27_25), &lug((x, y + 26)));
    }
    let base = "M 606 598 L 846 592 L 842 678 L 606 678 Z";
    canvas.fill(Ink::Down((592, 0xc8_96_62), (678, 0x9a_6a_40)), base);
    for y in [620, 640, 660] {
        canvas.line(Ink::Thin(INK, 110), 2, &format!("M 606 {y} L 844 {y}"));
    }
    canvas.fill(
        Ink::Flat(RUBBER),
        "M 606 678 L 842 678 L 838 730 L 606 730 Z",
    );
    canvas.line(
        Ink::Thin(INK, 160),
        3,
        "M 606 598 L 606 730 L 838 730 L 846 592",
    );
    canvas.fill(
        Ink::Down(
            (100, mixed(0x6f_3a_22, PAPER, 110)),
            (600, mixed(0x6f_3a_22, PAPER, 40)),
        ),
        ANKLE,
    );
    canvas.within(ANKLE);
    canvas.fill(Ink::Spot((250, 452), 220, 0xff_f4_e0, 110), ANKLE);
    canvas.everywhere();
    canvas.line(Ink::Thin(INK, 170), 3, ANKLE);
    let old = "M 66 566 C 66 606 96 642 180 662 C 290 684 430 684 540 658 L 594 636 L 594 690 L 858 \
        690 L 862 570";
    canvas.dash(PAPER, 9, (14, 12), old);
    canvas.dash(OXBLOOD, 5, (14, 12), old);
    canvas.line(
        Ink::Flat(VERDIGRIS),
        7,
        "M 120 552 C 200 590 380 590 480 560 C 600 520 700 500 810 500",
    );
    for (x, y) in [(320, 581), (768, 500)] {
        canvas.fill(Ink::Flat(PAPER), &oval((x, y), (13, 13)));
        canvas.line(Ink::Flat(VERDIGRIS), 6, &oval((x, y), (13, 13)));
    }
    canvas.place((0, 0), (100, 100));
}
