//! Soles from below, toe to the left: new ones, worn ones, and what is under them.

use super::paint::{Canvas, INK, Ink, OCHRE, STEEL, block, mixed, oval};

const OUTLINE: &str = "M 60 200 C 60 90 170 40 300 45 C 420 50 480 95 580 105 C 680 112 740 85 830 \
    85 C 920 85 950 140 950 195 C 950 255 915 300 830 300 C 740 300 690 290 590 300 C 480 315 400 \
    350 290 350 C 160 350 60 300 60 200 Z";

/// The same a little further in.
const INSIDE: &str = "M 86 200 C 86 108 184 68 300 72 C 416 78 480 120 578 130 C 680 138 744 112 \
    828 112 C 902 112 924 150 924 195 C 924 240 898 274 828 274 C 744 274 690 264 588 274 C 480 \
    288 394 322 290 322 C 180 322 86 284 86 200 Z";

/// The two soles of a pair, mirrored, each painted by `one`.
fn pair(canvas: &mut Canvas, one: impl Fn(&mut Canvas)) {
    for (y, high) in [(40, 112), (860, -112)] {
        canvas.place((36, y), (112, high));
        canvas.shadow(OUTLINE);
        one(canvas);
        canvas.everywhere();
    }
    canvas.place((0, 0), (100, 100));
}

pub(super) fn lugged(canvas: &mut Canvas) {
    pair(canvas, |canvas| {
        canvas.fill(Ink::Across((60, 0x4d_47_43), (950, 0x2c_28_26)), OUTLINE);
        canvas.within(INSIDE);
        for column in 0..14 {
            for row in 0..6 {
                let (x, y) = (92 + column * 62, 60 + row * 48 + column % 2 * 24);
                if (590..690).contains(&x) {
                    continue;
                }
                let lug = format!(
                    "M {x} {y} L {} {} L {} {} L {x} {} L {} {} Z",
                    x + 40,
                    y - 9,
                    x + 44,
                    y + 22,
                    y + 33,
                    x - 8,
                    y + 16,
                );
                canvas.fill(Ink::Thin(INK, 200), &lug);
                canvas.line(Ink::Thin(0xff_f0_dc, 46), 3, &lug);
            }
        }
        canvas.everywhere();
        canvas.round(OUTLINE);
        canvas.line(Ink::Thin(INK, 180), 4, BREAST_CUT);
        canvas.sew(OCHRE, 4, (12, 9), STITCHED);
        canvas.line(Ink::Thin(INK, 160), 3, OUTLINE);
    });
}

/// The seam of a sole, from heel to heel.
const STITCHED: &str = "M 672 284 C 640 282 610 284 589 287 C 480 302 397 336 290 336 C 170 336 73 \
    292 73 200 C 73 99 177 54 300 58 C 418 64 480 108 579 118 C 612 121 640 120 672 114";

const BREAST_CUT: &str = "M 690 100 C 712 160 712 240 690 294";

pub(super) fn leather(canvas: &mut Canvas) {
    pair(canvas, |canvas| {
        canvas.fill(Ink::Across((60, 0xd3_a0_68), (950, 0xb1_7b_46)), OUTLINE);
        canvas.within(OUTLINE);
        canvas.fill(Ink::Spot((260, 160), 240, 0xf2_d2_a6, 150), OUTLINE);
        for row in 0..22 {
            let y = 40 + row * 15 + row % 3 * 4;
            let vein = format!("M 60 {y} C 300 {} 600 {} 950 {y}", y - 9, y + 11);
            canvas.line(Ink::Thin(0x6a_40_1e, 16), 2 + row % 2, &vein);
        }
        canvas.everywhere();
        canvas.round(OUTLINE);
        canvas.line(Ink::Thin(0x4a_2a_12, 210), 3, STITCHED);
        canvas.dash(0x3a_20_0e, 5, (1, 19), STITCHED);
        canvas.line(Ink::Thin(0x4a_2a_12, 130), 3, BREAST_CUT);
        for (x, y) in [
            (740, 124),
            (800, 116),
            (860, 124),
            (898, 160),
            (902, 206),
            (884, 248),
            (830, 268),
            (764, 266),
        ] {
            canvas.fill(Ink::Thin(INK, 120), &oval((x + 2, y + 2), (7, 7)));
            canvas.fill(Ink::Flat(0xd8_b4_6a), &oval((x, y), (6, 6)));
        }
        canvas.line(Ink::Thin(INK, 150), 3, OUTLINE);
    });
}

pub(super) fn worn_through(canvas: &mut Canvas) {
    canvas.place((-40, 130), (128, 160));
    canvas.shadow(OUTLINE);
    canvas.fill(Ink::Across((60, 0x9c_72_4a), (950, 0x7a_55_35)), OUTLINE);
    canvas.within(OUTLINE);
    canvas.fill(Ink::Spot((280, 200), 240, 0xd8_bb_92, 220), OUTLINE);
    canvas.fill(Ink::Spot((110, 190), 120, 0x5c_3d_24, 140), OUTLINE);
    for row in 0..26 {
        let (x, y) = (120 + row * 67 % 420, 70 + row * 41 % 250);
        let scratch = format!(
            "M {x} {y} L {} {}",
            x + 46 + row % 5 * 12,
            y - 10 + row % 4 * 6
        );
        canvas.line(Ink::Thin(0x40_28_14, 60), 2, &scratch);
    }
    let worn = "M 210 190 C 214 142 270 120 330 138 C 390 152 402 196 384 232 C 360 274 280 280 240 \
        254 C 220 240 208 214 210 190 Z";
    canvas.line(Ink::Thin(0x5c_3d_24, 60), 30, worn);
    canvas.fill(Ink::Flat(0x86_5f_3c), worn);
    let hole = "M 246 196 L 258 166 L 286 158 L 300 164 L 330 158 L 352 180 L 358 204 L 342 230 L \
        312 236 L 296 246 L 268 236 L 252 222 Z";
    canvas.fill(Ink::Down((158, 0x2c_1c_10), (250, 0x8b_62_38)), hole);
    canvas.line(Ink::Thin(0xf0_d9_b4, 160), 4, hole);
    canvas.within(hole);
    for (x, y) in [
        (276, 200),
        (300, 214),
        (322, 198),
        (312, 180),
        (288, 226),
        (334, 216),
    ] {
        canvas.fill(Ink::Thin(0xd2_a0_5e, 170), &oval((x, y), (9, 6)));
    }
    canvas.everywhere();
    canvas.round(OUTLINE);
    canvas.dash(0x3a_20_0e, 5, (7, 15), STITCHED);
    canvas.line(Ink::Thin(INK, 170), 4, BREAST_CUT);
    canvas.line(Ink::Thin(INK, 160), 3, OUTLINE);
    canvas.place((0, 0), (100, 100));
    canvas.ring((348, 446), (178, 156));
}

pub(super) fn loose_rib(canvas: &mut Canvas) {
    canvas.place((-40, 60), (128, 160));
    canvas.shadow(OUTLINE);
    canvas.fill(Ink::Across((60, 0xe2_c4_98), (950, 0xc9_a2_6e)), OUTLINE);
    canvas.within(OUTLINE);
    canvas.fill(Ink::Spot((420, 190), 380, 0xb9_8a_52, 120), OUTLINE);
    for row in 0..40 {
        let (x, y) = (160 + row * 83 % 520, 120 + row * 47 % 160);
        canvas.fill(
            Ink::Thin(0x8a_5a_2c, 70),
            &oval((x, y), (9 + row % 3 * 3, 5)),
        );
    }
    canvas.everywhere();
    canvas.round(OUTLINE);
    canvas.line(Ink::Thin(INK, 150), 3, OUTLINE);
    let firm = [
        "M 690 138 C 600 148 520 136 430 108",
        "M 252 84 C 130 80 96 150 96 205 C 100 270 150 312 250 318 C 380 326 460 300 560 275 C 620 \
         262 660 258 690 262",
    ];
    let was = "M 430 108 C 372 90 312 84 252 84";
    let loose = "M 430 108 C 388 62 310 26 252 84";
    canvas.line(Ink::Flat(0x6a_42_1e), 20, was);
    canvas.line(Ink::Flat(0x9c_6e_36), 12, was);
    for rib in firm.into_iter().chain([loose]) {
        canvas.line(Ink::Thin(INK, 90), 24, rib);
        canvas.line(Ink::Flat(0xf3_e9_d6), 17, rib);
        canvas.dash(0xb8_9c_6c, 4, (3, 11), rib);
    }
    canvas.place((0, 0), (100, 100));
    ruler(canvas);
    canvas.ring((398, 186), (180, 110));
}

/// A steel rule on the bench, with a mark for each centimetre.
fn ruler(canvas: &mut Canvas) {
    let rule = block((90, 716), (1010, 96));
    canvas.shadow(&rule);
    canvas.fill(
        Ink::Down(
            (716, mixed(STEEL, 0xff_ff_ff, 120)),
            (812, mixed(STEEL, INK, 60)),
        ),
        &rule,
    );
    canvas.line(Ink::Thin(INK, 130), 2, &rule);
    for mark in 0..78 {
        let (x, long) = (
            110 + mark * 126 / 10,
            if mark % 10 == 0 {
                48
            } else if mark % 5 == 0 {
                34
            } else {
                20
            },
        );
        canvas.line(
            Ink::Thin(INK, 190),
            2,
            &format!("M {x} 718 L {x} {}", 718 + long),
        );
    }
}
