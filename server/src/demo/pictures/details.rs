//! Close looks: what the bench found, and what it makes of it.

use std::fmt::Write as _;

use super::paint::{
    Canvas, Dust, INK, Ink, LEATHER, OCHRE, RUBBER, SHEET, STEEL, VERDIGRIS, block, mixed, oval,
};

/// Crumbs strewn over a stretch of the bench.
fn strew(
    canvas: &mut Canvas,
    colour: u32,
    (x, y): (i16, i16),
    (wide, high): (i16, i16),
    count: i16,
) {
    let mut dust = Dust::new();
    for _ in 0..count {
        let (x, y) = (x + dust.below(wide), y + dust.below(high));
        let size = 4 + dust.below(14);
        let shape = format!(
            "M {x} {y} L {} {} L {} {} L {} {} Z",
            x + size,
            y - size / 2,
            x + size * 2,
            y + size / 3,
            x + size,
            y + size,
        );
        let shade = format!(
            "M {x} {} L {} {} L {} {} Z",
            y + 4,
            x + size * 2 + 6,
            y + size / 3,
            x + size,
            y + size + 6
        );
        canvas.fill(Ink::Thin(0x3a_24_10, 70), &shade);
        canvas.fill(Ink::Flat(mixed(colour, INK, dust.below(90))), &shape);
    }
}

/// The leather above the sole, filling the upper part of the sheet.
fn upper(canvas: &mut Canvas, colour: u32, shape: &str) {
    canvas.fill(
        Ink::Down(
            (0, mixed(colour, 0xff_f4_e0, 70)),
            (480, mixed(colour, 0x20_14_0a, 120)),
        ),
        shape,
    );
    canvas.within(shape);
    canvas.fill(
        Ink::Spot((420, 120), 460, mixed(colour, 0xff_ff_ff, 140), 110),
        shape,
    );
    for crease in 0..9 {
        let (x, y) = (80 + crease * 128, 180 + crease % 3 * 60);
        let line = format!(
            "M {x} {y} C {} {} {} {} {} {}",
            x + 40,
            y + 26,
            x + 90,
            y + 20,
            x + 130,
            y - 6
        );
        canvas.line(Ink::Thin(INK, 22), 4, &line);
    }
    canvas.everywhere();
    canvas.line(Ink::Thin(INK, 170), 10, shape);
}

pub(super) fn split_welt(canvas: &mut Canvas) {
    let below = "M 0 590 C 300 545 800 545 1200 612 L 1200 700 C 800 640 300 640 0 690 Z";
    canvas.shadow("M 0 640 C 300 600 800 600 1200 660 L 1200 730 C 800 670 300 670 0 720 Z");
    canvas.fill(Ink::Down((560, 0xc2_95_5c), (700, 0x7d_55_2e)), below);
    strew(canvas, 0x9c_6c_3a, (40, 610), (1120, 60), 34);
    upper(
        canvas,
        0x2f_4a_3a,
        "M -20 -20 L 1220 -20 L 1220 500 C 800 425 300 425 -20 472 Z",
    );
    let welt = "M -20 462 C 300 418 800 418 1220 492 L 1220 622 C 800 560 300 560 -20 606 Z";
    canvas.fill(Ink::Down((430, 0x70_57_45), (610, 0x38_2a_21)), welt);
    canvas.within(welt);
    canvas.line(
        Ink::Thin(0xff_e8_cc, 70),
        12,
        "M -20 476 C 300 432 800 432 1220 506",
    );
    canvas.everywhere();
    canvas.line(Ink::Thin(INK, 180), 5, welt);
    canvas.sew(OCHRE, 13, (34, 30), "M -10 538 C 150 514 290 506 410 502");
    canvas.sew(OCHRE, 13, (34, 30), "M 846 506 C 980 514 1100 530 1210 552");
    for (x, y) in [(470, 499), (534, 497), (716, 498), (780, 501)] {
        canvas.fill(Ink::Flat(0x14_0d_09), &oval((x, y), (9, 12)));
    }
    let crack = "M 590 430 L 602 446 L 597 462 L 612 478 L 604 497 L 618 512 L 611 527 L 622 540 L 616 \
        556 L 628 570 L 660 572 L 652 558 L 663 545 L 650 530 L 671 516 L 656 498 L 668 480 L 650 466 \
        L 658 448 L 648 431 Z";
    canvas.line(Ink::Thin(0xff_e8_cc, 110), 7, crack);
    canvas.fill(Ink::Flat(0x12_0b_07), crack);
    for line in [
        "M 500 440 L 512 466 L 500 492 L 520 516",
        "M 744 442 L 732 470 L 752 500 L 738 524 L 750 548",
        "M 560 430 L 566 452 L 556 470",
    ] {
        canvas.line(Ink::Thin(0x12_0b_07, 220), 5, line);
    }
    let loose =
        "M 412 502 C 450 480 470 540 516 534 C 566 528 540 604 590 622 C 620 632 630 606 612 598";
    canvas.line(Ink::Thin(INK, 90), 16, loose);
    canvas.line(Ink::Flat(OCHRE), 11, loose);
    canvas.line(Ink::Thin(0xff_f4_d6, 110), 3, loose);
    canvas.ring((634, 498), (176, 138));
}

pub(super) fn fibre_heel(canvas: &mut Canvas) {
    canvas.shadow(&oval((600, 782), (420, 14)));
    upper(
        canvas,
        0x2f_4a_3a,
        "M 120 -20 C 150 120 190 230 200 330 L 1010 300 C 1050 200 1060 90 1040 -20 Z",
    );
    let seat = "M 176 322 L 1024 292 L 1024 352 L 176 378 Z";
    canvas.fill(Ink::Down((292, 0xa8_76_44), (378, 0x6e_48_28)), seat);
    canvas.line(Ink::Thin(INK, 160), 4, seat);
    let mut dust = Dust::new();
    for (layer, lost) in (0..).zip([10, 34, 120, 64, 176, 96, 40, 22]) {
        let (y, left, right) = (366 + layer * 50, 196 + layer * 3, 1000 - lost);
        let colour = mixed(0xb3_9a_78, INK, layer * 29 % 70);
        let shape = layer_of_fibre(&mut dust, (left, y), right);
        canvas.fill(
            Ink::Down(
                (y, mixed(colour, 0xff_f4_e0, 40)),
                (y + 47, mixed(colour, INK, 60)),
            ),
            &shape,
        );
        canvas.line(Ink::Thin(INK, 130), 3, &shape);
        let split = format!(
            "M {} {} L {} {} L {} {}",
            left + 90 + layer * 40,
            y + 22,
            left + 240 + layer * 30,
            y + 26,
            left + 330,
            y + 18
        );
        canvas.line(Ink::Thin(INK, 110), 3, &split);
    }
    for (x, y) in [(856, 470), (790, 574), (880, 660)] {
        canvas.line(
            Ink::Thin(INK, 120),
            17,
            &format!("M {x} {y} L {} {}", x + 92, y + 14),
        );
        canvas.line(
            Ink::Flat(0x8a_4a_26),
            11,
            &format!("M {x} {y} L {} {}", x + 92, y + 14),
        );
        canvas.fill(Ink::Flat(0x6a_36_1c), &oval((x + 94, y + 15), (10, 15)));
    }
    strew(canvas, 0xb3_9a_78, (760, 764), (380, 92), 58);
    strew(canvas, 0xb3_9a_78, (240, 800), (500, 44), 14);
    canvas.ring((880, 566), (190, 220));
}

/// One layer of a heel, its right end broken off raggedly.
fn layer_of_fibre(dust: &mut Dust, (left, top): (i16, i16), right: i16) -> String {
    let mut shape = format!("M {left} {top} L {} {top}", right - 40);
    for step in [6, 14, 22, 30, 38, 46] {
        let _ = write!(shape, " L {} {}", right - 44 + dust.below(56), top + step);
    }
    let bottom = top + 47;
    let _ = write!(shape, " L {} {bottom} L {left} {bottom} Z", right - 52);
    shape
}

pub(super) fn thin_welt(canvas: &mut Canvas) {
    let sole = "M -20 700 C 300 600 840 600 1220 720 L 1220 920 L -20 920 Z";
    canvas.fill(Ink::Down((620, 0x8c_62_3c), (900, 0x5a_3c_24)), sole);
    let welt = "M -20 420 C 300 330 840 330 1220 440 L 1220 742 C 840 622 300 622 -20 722 Z";
    canvas.shadow(welt);
    canvas.fill(Ink::Down((340, 0x8a_5e_36), (720, 0xd0_a2_6a)), welt);
    canvas.line(Ink::Thin(INK, 170), 5, welt);
    for (row, colour) in [
        ("M -20 560 C 300 470 840 470 1220 584", 0x2a_18_0c),
        ("M -20 622 C 300 530 840 530 1220 646", 0x2a_18_0c),
    ] {
        canvas.dash(mixed(colour, LEATHER, 120), 20, (1, 45), row);
        canvas.dash(colour, 14, (1, 45), row);
    }
    for tear in [
        "M 460 494 L 472 520 L 462 548",
        "M 646 490 L 634 520 L 648 546",
        "M 780 496 L 770 528 L 782 556",
    ] {
        canvas.line(Ink::Thin(0x2a_18_0c, 230), 5, tear);
    }
    upper(
        canvas,
        0x2c_27_26,
        "M -20 -20 L 1220 -20 L 1220 470 C 840 356 300 356 -20 448 Z",
    );
    let awl = "M 1190 900 L 742 624 L 724 606 L 748 612 L 1210 868 Z";
    canvas.shadow(awl);
    canvas.fill(Ink::Across((720, 0xd8_d8_d2), (1200, 0x8c_8c_88)), awl);
    canvas.line(Ink::Thin(INK, 160), 3, awl);
    canvas.ring((640, 540), (250, 120));
}

/// The edge of a boot: leather, a rubber strip, and a sole that hangs down.
fn open_edge(canvas: &mut Canvas, colour: u32, strip: u32) {
    let sole = "M -20 640 C 200 720 520 760 1220 700 L 1220 800 C 520 860 200 820 -20 740 Z";
    canvas.shadow(sole);
    canvas.fill(Ink::Down((660, 0x4a_44_40), (840, 0x24_20_1e)), sole);
    for (lug, low) in (0..).zip([0, 26, 42, 50, 50, 44, 36, 28, 18]) {
        canvas.fill(
            Ink::Flat(0x24_20_1e),
            &block((20 + lug * 136, 758 + low), (92, 62)),
        );
    }
    canvas.line(Ink::Thin(INK, 170), 4, sole);
    upper(
        canvas,
        colour,
        "M -20 -20 L 1220 -20 L 1220 420 C 800 390 300 380 -20 360 Z",
    );
    let band = "M -20 350 C 300 372 800 382 1220 408 L 1220 512 C 800 488 300 478 -20 456 Z";
    canvas.fill(
        Ink::Down(
            (350, mixed(strip, 0xff_f4_e0, 50)),
            (512, mixed(strip, INK, 90)),
        ),
        band,
    );
    canvas.line(Ink::Thin(INK, 170), 5, band);
}

pub(super) fn crumbs(canvas: &mut Canvas) {
    let foam = 0xe4_d9_b4;
    let dark = "M -20 440 L 1220 500 L 1220 720 C 600 780 200 730 -20 660 Z";
    canvas.fill(Ink::Down((440, 0x1c_15_10), (740, 0x3a_2c_20)), dark);
    for piece in [
        "M -20 452 L 236 470 L 262 520 L 230 560 L 250 610 L 180 668 L 90 660 L -20 630 Z",
        "M 330 476 L 520 486 L 500 540 L 452 566 L 420 540 L 372 556 L 350 520 Z",
        "M 640 690 L 660 640 L 720 630 L 742 590 L 800 604 L 842 650 L 900 664 L 916 716 L 760 730 Z",
        "M 940 500 L 1220 512 L 1220 700 L 1100 700 L 1064 640 L 1010 620 L 1020 566 L 962 548 Z",
        "M 640 492 L 800 498 L 780 540 L 716 552 L 668 536 Z",
    ] {
        canvas.fill(
            Ink::Down((470, foam), (720, mixed(foam, 0x8a_6a_3a, 130))),
            piece,
        );
        canvas.line(Ink::Thin(0x6a_52_2a, 160), 4, piece);
    }
    open_edge(canvas, 0x77_7b_7b, 0x46_42_40);
    strew(canvas, foam, (280, 610), (640, 110), 66);
    strew(canvas, foam, (120, 838), (980, 40), 40);
    canvas.ring((590, 590), (330, 140));
}

pub(super) fn soaked_midsole(canvas: &mut Canvas) {
    let gap = "M -20 430 L 1220 490 L 1220 720 C 600 780 200 730 -20 660 Z";
    canvas.fill(Ink::Down((470, 0x14_0e_0a), (740, 0x40_30_22)), gap);
    let layer = "M -20 560 C 200 650 520 690 1220 590 L 1220 690 C 520 770 200 730 -20 650 Z";
    canvas.fill(Ink::Down((560, 0x77_53_34), (770, 0x3a_26_17)), layer);
    canvas.within(layer);
    canvas.fill(Ink::Spot((420, 680), 330, 0x1a_10_0a, 170), layer);
    canvas.line(
        Ink::Thin(0xd9_c6_a0, 130),
        6,
        "M 60 618 C 240 640 300 690 470 676 C 640 664 700 720 860 668",
    );
    canvas.everywhere();
    canvas.line(Ink::Thin(INK, 180), 5, layer);
    open_edge(canvas, 0xb9_83_47, 0x9a_70_40);
    canvas.sew(OCHRE, 11, (32, 26), "M -20 404 C 300 424 800 434 1220 460");
    for (x, y, long) in [
        (300, 560, 46),
        (520, 566, 60),
        (660, 556, 34),
        (820, 552, 52),
    ] {
        canvas.line(
            Ink::Flat(0xd8_c9_a6),
            5,
            &format!(
                "M {x} {} C {} {y} {} {} {} {}",
                y - 62,
                x + 8,
                x - 6,
                y + 10,
                x + 4,
                y + long
            ),
        );
    }
    canvas.ring((560, 590), (300, 130));
}

pub(super) fn torn_collar(canvas: &mut Canvas) {
    let tan = 0xb9_83_47;
    upper(canvas, tan, SHEET);
    let collar = "M -20 120 C 300 60 820 40 1220 90 L 1220 330 C 820 280 300 300 -20 372 Z";
    canvas.fill(
        Ink::Down(
            (60, mixed(tan, 0xff_f4_e0, 110)),
            (360, mixed(tan, INK, 90)),
        ),
        collar,
    );
    canvas.fill(
        Ink::Down((0, 0x5a_42_2c), (130, 0x30_22_17)),
        "M -20 -20 L 1220 -20 L 1220 92 C 820 42 300 62 -20 122 Z",
    );
    for row in [
        "M 260 70 C 250 160 262 240 280 320",
        "M 620 52 C 612 140 620 220 634 296",
        "M 960 62 C 954 150 958 220 970 302",
    ] {
        canvas.line(Ink::Thin(INK, 60), 20, row);
        canvas.line(Ink::Thin(0xff_f4_e0, 60), 6, row);
    }
    let seam = "M -20 392 C 300 320 820 300 1220 350";
    canvas.line(Ink::Thin(INK, 150), 8, seam);
    canvas.sew(OCHRE, 9, (26, 18), "M -20 418 C 110 386 230 366 350 352");
    canvas.sew(OCHRE, 9, (26, 18), "M 850 328 C 980 332 1110 344 1220 360");
    let tear = "M 344 352 C 420 322 520 330 640 318 C 740 308 800 318 856 326 C 800 392 716 452 610 456 \
        C 500 458 400 420 344 352 Z";
    canvas.line(Ink::Thin(0xff_f0_d8, 120), 9, tear);
    canvas.fill(Ink::Down((320, 0x1e_14_0c), (456, 0x8f_7a_58)), tear);
    canvas.within(tear);
    for row in 0..16 {
        let x = 350 + row * 33;
        canvas.line(
            Ink::Thin(0xe0_d2_b0, 100),
            4,
            &format!("M {x} 380 L {} 470", x + 24),
        );
    }
    canvas.everywhere();
    for end in [
        "M 350 350 C 380 300 420 380 452 340",
        "M 852 326 C 820 280 790 360 760 322",
        "M 500 330 C 520 380 548 360 560 400",
        "M 700 314 C 690 360 720 372 706 410",
    ] {
        canvas.line(Ink::Flat(OCHRE), 7, end);
    }
    canvas.sew(
        mixed(tan, OCHRE, 160),
        8,
        (22, 16),
        "M 120 900 C 200 760 240 640 250 470",
    );
    canvas.line(Ink::Thin(INK, 120), 6, "M 96 900 C 178 760 216 640 226 470");
    canvas.ring((600, 384), (330, 150));
}

pub(super) fn lift(canvas: &mut Canvas) {
    canvas.shadow(&oval((600, 786), (480, 26)));
    for (x, raised) in [(90, true), (640, false)] {
        canvas.place((x, if raised { 118 } else { 158 }), (100, 100));
        heel_from_behind(canvas, raised);
    }
    canvas.place((0, 0), (100, 100));
    canvas.dash(VERDIGRIS, 6, (20, 14), "M 40 601 L 1160 601");
    canvas.dash(VERDIGRIS, 6, (20, 14), "M 40 561 L 560 561");
}

fn heel_from_behind(canvas: &mut Canvas, raised: bool) {
    let oxblood = 0x7a_27_2c;
    let back = "M 92 110 C 150 70 320 70 378 110 C 396 220 430 320 424 420 L 46 420 C 40 320 74 220 92 110 Z";
    canvas.fill(
        Ink::Across(
            (40, mixed(oxblood, INK, 110)),
            (430, mixed(oxblood, INK, 60)),
        ),
        back,
    );
    canvas.within(back);
    canvas.fill(Ink::Spot((170, 230), 180, 0xc9_7a_72, 150), back);
    canvas.line(Ink::Thin(INK, 60), 30, back);
    canvas.everywhere();
    canvas.fill(
        Ink::Flat(mixed(oxblood, INK, 60)),
        "M 212 84 L 258 84 L 254 420 L 216 420 Z",
    );
    canvas.sew(mixed(oxblood, OCHRE, 160), 4, (11, 8), "M 222 92 L 225 412");
    canvas.sew(mixed(oxblood, OCHRE, 160), 4, (11, 8), "M 248 92 L 245 412");
    canvas.fill(
        Ink::Flat(0x3a_20_17),
        "M 100 112 C 160 84 310 84 370 112 C 310 132 160 132 100 112 Z",
    );
    canvas.line(Ink::Thin(INK, 170), 4, back);
    let welt = "M 30 412 L 440 412 L 444 444 L 26 444 Z";
    canvas.fill(Ink::Down((412, 0xb0_82_4e), (444, 0x74_4e_2c)), welt);
    canvas.line(Ink::Thin(INK, 150), 3, welt);
    let mut y = 444;
    if raised {
        let layer = block((44, y), (382, 40));
        canvas.fill(Ink::Down((y, 0xe0_bc_86), (y + 40, 0xc2_94_5a)), &layer);
        canvas.line(Ink::Thin(INK, 150), 3, &layer);
        y += 40;
    }
    for lift in 0..4 {
        let layer = block((46 + lift * 2, y), (378 - lift * 4, 40));
        canvas.fill(Ink::Across((40, 0x8a_5a_34), (430, 0x55_36_20)), &layer);
        canvas.line(Ink::Thin(INK, 120), 3, &layer);
        y += 40;
    }
    canvas.fill(Ink::Flat(RUBBER), &block((54, y), (362, 24)));
}

pub(super) fn broken_zip(canvas: &mut Canvas) {
    upper(canvas, 0x2e_2b_2d, SHEET);
    for x in [330, 870] {
        canvas.line(Ink::Thin(INK, 160), 8, &format!("M {x} -10 L {x} 910"));
        canvas.sew(
            0x8a_80_74,
            6,
            (18, 14),
            &format!(
                "M {} -10 L {} 910",
                if x < 600 { x - 26 } else { x + 26 },
                if x < 600 { x - 26 } else { x + 26 }
            ),
        );
    }
    canvas.fill(
        Ink::Across((340, 0x4a_44_42), (860, 0x3a_35_34)),
        &block((340, 0), (520, 900)),
    );
    let open = "M 592 -20 L 608 -20 C 612 120 640 200 652 330 C 668 470 660 560 612 660 L 588 660 C 540 \
        560 532 470 548 330 C 560 200 588 120 592 -20 Z";
    for x in 0..26 {
        let at = 350 + x * 20;
        canvas.line(Ink::Thin(INK, 60), 3, &format!("M {at} 0 L {at} 900"));
    }
    canvas.fill(Ink::Down((0, 0x12_0d_0b), (660, 0x6a_50_38)), open);
    canvas.line(Ink::Thin(INK, 200), 6, open);
    for (tooth, apart) in (0..).zip(APART.into_iter().chain([6; 13])) {
        let y = 4 + tooth * 20;
        let missing = [13, 14, 15, 17, 18, 21].contains(&tooth);
        if !missing {
            tooth_at(canvas, (570 - apart, y));
        }
        if !missing && tooth != 16 {
            tooth_at(canvas, (598 + apart, y + 10));
        }
    }
    let slider = "M 560 690 C 560 664 640 664 640 690 L 630 770 C 620 790 580 790 570 770 Z";
    canvas.shadow(slider);
    canvas.fill(Ink::Down((664, 0xe0_c0_78), (790, 0x8a_66_2c)), slider);
    canvas.line(Ink::Thin(INK, 180), 4, slider);
    canvas.line(
        Ink::Flat(0xb8_92_4a),
        12,
        "M 600 770 C 604 800 598 830 606 868",
    );
    canvas.ring((600, 330), (160, 190));
}

/// How far the two rows stand apart, tooth by tooth, down to the slider.
const APART: [i16; 33] = [
    0, 2, 4, 7, 10, 14, 18, 22, 26, 30, 34, 38, 42, 45, 48, 50, 52, 53, 54, 54, 54, 53, 52, 49, 46,
    42, 38, 33, 28, 22, 16, 11, 6,
];

fn tooth_at(canvas: &mut Canvas, at: (i16, i16)) {
    let tooth = block(at, (32, 9));
    canvas.fill(
        Ink::Across(
            (540, mixed(STEEL, 0xff_ff_ff, 60)),
            (660, mixed(STEEL, INK, 60)),
        ),
        &tooth,
    );
    canvas.line(Ink::Thin(INK, 160), 2, &tooth);
}

pub(super) fn swatches(canvas: &mut Canvas) {
    let rose = 0xb8_6a_6e;
    canvas.turn(-6, (330, 420));
    let mut cloth = "M 110 150".to_owned();
    for tooth in 0..16 {
        let _ = write!(
            cloth,
            " L {} 138 L {} 150",
            123 + tooth * 26,
            136 + tooth * 26
        );
    }
    cloth.push_str(" L 526 690");
    for tooth in 0..16 {
        let _ = write!(
            cloth,
            " L {} 702 L {} 690",
            513 - tooth * 26,
            500 - tooth * 26
        );
    }
    cloth.push_str(" Z");
    canvas.shadow(&cloth);
    canvas.fill(
        Ink::Down(
            (140, mixed(rose, 0xff_ff_ff, 40)),
            (700, mixed(rose, INK, 40)),
        ),
        &cloth,
    );
    canvas.within(&cloth);
    for line in 0..58 {
        let at = 100 + line * 11;
        canvas.line(
            Ink::Thin(0xff_ff_ff, 34),
            3,
            &format!("M 90 {at} L 560 {at}"),
        );
        canvas.line(Ink::Thin(INK, 22), 3, &format!("M {at} 100 L {at} 740"));
    }
    canvas.line(
        Ink::Thin(INK, 30),
        26,
        "M 200 130 C 260 300 240 520 300 720",
    );
    canvas.everywhere();
    canvas.place((0, 0), (100, 100));
    for (place, (coat, tilt)) in [(90, 4), (235, -3), (250, 3)].into_iter().enumerate() {
        let x = 590;
        let y = 70 + i16::try_from(place).unwrap_or(0) * 262;
        canvas.turn(tilt, (x + 160, y + 110));
        chip(
            canvas,
            (x, y),
            mixed(0xe9_dd_c0, if place == 2 { 0x9c_48_50 } else { rose }, coat),
        );
        canvas.place((0, 0), (100, 100));
    }
    brush(canvas);
    canvas.ring((752, 440), (208, 142));
}

/// A piece of leather with a trial coat, its corner left bare.
fn chip(canvas: &mut Canvas, (x, y): (i16, i16), colour: u32) {
    let shape = block((x, y), (320, 220));
    canvas.shadow(&shape);
    canvas.fill(Ink::Flat(0xe9_dd_c0), &shape);
    canvas.within(&shape);
    let coat = format!(
        "M {} {y} C {} {} {} {} {} {} L {} {} L {} {y} Z",
        x + 62,
        x + 40,
        y + 80,
        x + 90,
        y + 150,
        x + 58,
        y + 220,
        x + 320,
        y + 220,
        x + 320
    );
    canvas.fill(Ink::Flat(colour), &coat);
    canvas.fill(Ink::Spot((x + 190, y + 60), 190, 0xff_ff_ff, 90), &coat);
    for stroke in 0..9 {
        let at = y + 16 + stroke * 24;
        canvas.line(
            Ink::Thin(INK, 16),
            5,
            &format!(
                "M {} {at} C {} {} {} {} {} {at}",
                x + 60,
                x + 140,
                at - 8,
                x + 240,
                at + 8,
                x + 330
            ),
        );
    }
    canvas.everywhere();
    canvas.line(Ink::Thin(INK, 110), 3, &shape);
}

fn brush(canvas: &mut Canvas) {
    canvas.turn(16, (1060, 450));
    let handle = "M 1042 470 C 1030 640 1034 780 1050 860 C 1058 880 1070 880 1078 860 C 1094 780 1098 640 1086 470 Z";
    let hair = "M 1036 330 C 1030 260 1046 210 1066 170 C 1086 210 1100 260 1092 330 Z";
    canvas.shadow(handle);
    canvas.shadow(hair);
    canvas.fill(Ink::Across((1030, 0xb5_7f_4c), (1098, 0x6e_46_26)), handle);
    canvas.fill(
        Ink::Across((1036, STEEL), (1092, 0x86_88_86)),
        "M 1034 326 L 1094 326 L 1088 474 L 1040 474 Z",
    );
    canvas.fill(Ink::Down((170, 0xb8_6a_6e), (330, 0x4a_30_20)), hair);
    for line in [handle, hair] {
        canvas.line(Ink::Thin(INK, 130), 3, line);
    }
    canvas.place((0, 0), (100, 100));
}
