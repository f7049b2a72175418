//! Luck: one number for each step in each draw, the same wherever that step stands in a plan.
//!
//! Luck is looked up, not handed out in turn: what a step draws depends on the seed, the draw and
//! the step's own name alone. Two plans that differ in one pair therefore share the luck of all
//! others (common random numbers), and what differs between them is the change itself.
//!
//! Logarithm and exponential are those of `libm`, not of the machine, so that server and browser
//! draw the same minutes and give the same days.

#![expect(
    clippy::float_arithmetic,
    clippy::as_conversions,
    clippy::cast_precision_loss,
    clippy::excessive_precision,
    reason = "chance is reckoned in floats, with coefficients as published; no money here"
)]

/// The luck of one draw.
#[derive(Clone, Copy, Debug)]
pub(super) struct Luck(u64);

impl Luck {
    pub(super) fn of(seed: u64, draw: u32) -> Self {
        Self(mix(
            seed.wrapping_add(GOLDEN.wrapping_mul(u64::from(draw) + 1))
        ))
    }

    /// A standard normal deviate for the step with this key.
    pub(super) fn normal(self, step: StepKey) -> f64 {
        // 53 bits, in the middle of their interval: never 0 or 1, whose quantiles are infinite.
        let share = ((mix(self.0 ^ step.0) >> 11) as f64 + 0.5) * (1.0 / 9_007_199_254_740_992.0);
        normal_quantile(share)
    }
}

/// What a step draws its luck by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct StepKey(u64);

impl StepKey {
    /// The key of a pair's step: by name, and by which one of that name it is.
    pub(super) fn new(tag: &str, step: &str, turn: usize) -> Self {
        let turn = turn.to_string();
        // A NUL after each part keeps ("ab", "c") and ("a", "bc") apart.
        let parts = [tag, "\0", step, "\0", turn.as_str()];
        Self(mix(fnv(parts.into_iter().flat_map(str::bytes))))
    }
}

fn fnv(bytes: impl Iterator<Item = u8>) -> u64 {
    bytes.fold(FNV_OFFSET, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(FNV_PRIME)
    })
}

/// FNV-1a, 64 bits (Fowler, Noll and Vo): its published offset basis and prime.
const FNV_OFFSET: u64 = 0xcbf2_9ce4_8422_2325;
const FNV_PRIME: u64 = 0x0000_0100_0000_01b3;

/// The step of `SplitMix64`: 2⁶⁴ divided by the golden ratio, made odd.
const GOLDEN: u64 = 0x9e37_79b9_7f4a_7c15;

/// The output function of `SplitMix64` (Steele, Lea and Flood, "Fast splittable pseudorandom number
/// generators", OOPSLA 2014; constants of Vigna's public-domain version).
fn mix(mut bits: u64) -> u64 {
    bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    bits ^ (bits >> 31)
}

/// The value below which a standard normal variable stays with this probability, to about 1 part
/// in 10¹⁶: Wichura, "Algorithm AS 241: the percentage points of the normal distribution", Applied
/// Statistics 37(3), 1988, pp. 477–484 (PPND16).
pub(super) fn normal_quantile(share: f64) -> f64 {
    let central = share - 0.5;
    if central.abs() <= 0.425 {
        return central * ratio(&CENTRE, 0.180_625 - central * central);
    }
    let tail = if central < 0.0 { share } else { 1.0 - share };
    let depth = (-libm::log(tail)).sqrt();
    let size = if depth <= 5.0 {
        ratio(&TAIL, depth - 1.6)
    } else {
        ratio(&FAR_TAIL, depth - 5.0)
    };
    size.copysign(central)
}

/// A fraction of two polynomials, the highest power first.
struct Fraction {
    above: [f64; 8],
    below: [f64; 8],
}

fn ratio(fraction: &Fraction, at: f64) -> f64 {
    let value = |powers: &[f64; 8]| powers.iter().fold(0.0, |sum, power| sum * at + power);
    value(&fraction.above) / value(&fraction.below)
}

const CENTRE: Fraction = Fraction {
    above: [
        2_509.080_928_730_122_672_7,
        33_430.575_583_588_128_105,
        67_265.770_927_008_700_853,
        45_921.953_931_549_871_457,
        13_731.693_765_509_461_125,
        1_971.590_950_306_551_442_7,
        133.141_667_891_784_377_45,
        3.387_132_872_796_366_608_0,
    ],
    below: [
        5_226.495_278_852_854_561_0,
        28_729.085_735_721_942_674,
        39_307.895_800_092_710_610,
        21_213.794_301_586_595_867,
        5_394.196_021_424_751_107_7,
        687.187_007_492_057_908_30,
        42.313_330_701_600_911_252,
        1.0,
    ],
};

const TAIL: Fraction = Fraction {
    above: [
        7.745_450_142_783_414_076_40e-4,
        2.272_384_498_926_918_458_33e-2,
        2.417_807_251_774_506_117_70e-1,
        1.270_458_252_452_368_382_58,
        3.647_848_324_763_204_605_04,
        5.769_497_221_460_691_405_50,
        4.630_337_846_156_545_295_90,
        1.423_437_110_749_683_577_34,
    ],
    below: [
        1.050_750_071_644_416_843_24e-9,
        5.475_938_084_995_344_946_00e-4,
        1.519_866_656_361_645_719_66e-2,
        1.481_039_764_274_800_745_90e-1,
        6.897_673_349_851_000_045_50e-1,
        1.676_384_830_183_803_849_40,
        2.053_191_626_637_758_821_87,
        1.0,
    ],
};

const FAR_TAIL: Fraction = Fraction {
    above: [
        2.010_334_399_292_288_132_65e-7,
        2.711_555_568_743_487_578_15e-5,
        1.242_660_947_388_078_438_60e-3,
        2.653_218_952_657_612_309_30e-2,
        2.965_605_718_285_048_912_30e-1,
        1.784_826_539_917_291_335_80,
        5.463_784_911_164_114_369_90,
        6.657_904_643_501_103_777_20,
    ],
    below: [
        2.044_263_103_389_939_785_64e-15,
        1.421_511_758_316_445_888_70e-7,
        1.846_318_317_510_054_681_80e-5,
        7.868_691_311_456_132_591_00e-4,
        1.487_536_129_085_061_485_25e-2,
        1.369_298_809_227_358_053_10e-1,
        5.998_322_065_558_879_376_90e-1,
        1.0,
    ],
};

#[cfg(test)]
mod tests {
    use super::*;

    /// Quantiles by `statistics.NormalDist().inv_cdf` of Python 3.11 (its own AS 241), from
    /// all three ranges of the algorithm.
    #[test]
    fn quantiles_agree_with_the_reference() {
        for (share, expected) in [
            (0.25, -0.674_489_750_196_081_7),
            (0.5, 0.0),
            (0.80, 0.841_621_233_572_914_4),
            (0.90, 1.281_551_565_544_600_8),
            (0.95, 1.644_853_626_951_471_5),
            (0.975, 1.959_963_984_540_053_6),
            (1e-3, -3.090_232_306_167_813),
            (1e-12, -7.034_483_825_301_132),
            (1e-17, -8.493_793_224_109_6),
        ] {
            let found = normal_quantile(share);
            assert!((found - expected).abs() < 1e-12, "{share}: {found}");
        }
    }

    /// The first outputs for the seed 1234567, as Vigna's `splitmix64.c` gives them.
    #[test]
    fn mixing_is_that_of_splitmix64() {
        let outputs = [1_u64, 2, 3].map(|turn| mix(GOLDEN.wrapping_mul(turn) + 1_234_567));
        assert_eq!(
            outputs,
            [
                6_457_827_717_110_365_317,
                3_203_168_211_198_807_973,
                9_817_491_932_198_370_423
            ]
        );
    }

    /// The published test values of FNV-1a.
    #[test]
    fn hashing_is_that_of_fnv_1a() {
        for (text, hash) in [
            ("", 0xcbf2_9ce4_8422_2325),
            ("a", 0xaf63_dc4c_8601_ec8c),
            ("foobar", 0x8594_4171_f739_67e8),
        ] {
            assert_eq!(fnv(text.bytes()), hash, "{text}");
        }
    }

    /// Mean 0, variance 1, and no tie between neighbouring draws or steps: each within four
    /// standard errors of 40,000 draws.
    #[test]
    fn deviates_are_standard_normal_and_unrelated() {
        let (welt, heel) = (StepKey::new("41", "welt", 0), StepKey::new("41", "heel", 0));
        let draws = 40_000;
        let mean = |value: &dyn Fn(u32) -> f64| (0..draws).map(value).sum::<f64>() / 40_000.0;
        let at = |draw, step| Luck::of(7, draw).normal(step);
        assert!(mean(&|draw| at(draw, welt)).abs() < 0.02);
        assert!((mean(&|draw| at(draw, welt).powi(2)) - 1.0).abs() < 0.03);
        assert!(mean(&|draw| at(draw, welt) * at(draw, heel)).abs() < 0.02);
        assert!(mean(&|draw| at(draw, welt) * at(draw + 1, welt)).abs() < 0.02);
    }
}
