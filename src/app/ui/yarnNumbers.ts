/** What the numbers on the page of yarns are called and mean: loaded with the first question that is asked there. */
import type { NumberEntry } from "./numberCatalogue.ts";

export const YARN_NUMBER_NAMES = {
  shadeRange: "± of a shade",
  classes: "Value class of a yarn",
  weightClass: "Weight class",
  owned: "Amount left",
  promised: "Promised and free",
  near: "How near",
  seenApart: "Told apart",
  strand: "Apart in L*, twisted",
} as const;

export type YarnNumberKey = keyof typeof YARN_NUMBER_NAMES;

// Birthplaces of what is said here: docs/vision.md, docs/trade.md and the tables of src/yarn/data.
export const YARN_NUMBER_HELP: Readonly<Record<YarnNumberKey, NumberEntry>> = {
  shadeRange: {
    meaning:
      "How far the true shade may lie from the one given, as a difference ΔE00: in four of five cases it is no farther. Two is hardly to be seen; ten is another shade.",
    restsOn:
      "How the shade is known: a photograph with a colour chart is surest, then one with a grey card, a comparison beside the screen, and what was picked by eye. What nobody has said is taken to be ± 5.",
    weak: "It is itself an estimate, from many measured cases like yours. A yarn that shines, or that has other colours inside, may lie outside it.",
  },
  classes: {
    meaning:
      "Light from L* 72, light-medium from 55, medium-dark from 35, dark below. A yarn whose range reaches over a limit is told as one or the other.",
    restsOn:
      "Its L* and the ± of its shade. The four steps are common practice in planning colourwork, without a published source.",
    weak: "Where the limits lie is a habit. The order from light to dark, and how far apart, count for more.",
  },
  weightClass: {
    meaning:
      "How thick the yarn is, in the trade’s words from lace to jumbo. The label’s word counts; without one, every class whose published range holds its metres in 100 g is named.",
    restsOn: "The yarn council’s categories, with the lengths of published trade tables.",
    weak: "The ranges overlap and the tables differ, so that one yarn may be two. Metres are never guessed from a class.",
  },
  owned: {
    meaning: "Grams over all lots, and metres from them by the length in 100 g.",
    restsOn: "The label, or your scales where weighed is ticked.",
    weak: "Wool takes up water: in a heated room a ball weighs some 4 to 8 in 100 less than its label, so the metres from a scale are rather too few than too many. Labels err too.",
  },
  promised: {
    meaning: "Grams that you mean to keep for a project, and what is left of the yarn beside all promises.",
    restsOn: "What a project takes, with its reserve, rounded up to whole grams; or what you have typed.",
    weak: "What a project takes is an estimate until your swatch is measured. A promise is a note: nothing keeps you from breaking it.",
  },
  near: {
    meaning:
      "The difference of the two shades, ΔE00, in words: under 1 as good as the same, under 2 hardly to be told apart, under 5 near, under 10 akin, under 20 another shade, and then another colour.",
    restsOn: "CIEDE2000, an international standard for small differences of colour. The words are our choice.",
    weak: "It is as right as both shades. Large differences are not what the standard was made for: take them as far.",
  },
  seenApart: {
    meaning:
      "Whether an eye could tell two plain pieces of cloth in these yarns, edge to edge, from where you look: not told apart under V 1, hardly under 3, told apart under 10, and then plainly two.",
    restsOn: "The same model of eyesight as on the bench, at its distance and light, on two fields of twelve stitches.",
    weak: "A model of ordinary eyesight, not tested on knitting. In small shapes two yarns melt sooner: the bench reckons with that.",
  },
  strand: {
    meaning:
      "How far the two lie from each other in lightness. Knitters’ rule of thumb: under 8 they melt together, 8–15 whisper, 15–30 read, over 30 is bold.",
    restsOn:
      "The two shades. The steps are common practice, without a published source; the strands are drawn from the same shades.",
    weak: "The drawing is even light on round strands: yours have hairs, sheen and a lamp of their own. Twist the real ones by a window as well.",
  },
};
