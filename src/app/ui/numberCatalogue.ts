/** What every number on the screen means, what it rests on and where it is weak: plain data, one entry a number. */

import type { NumberKey } from "./numberNames.ts";

export interface NumberEntry {
  /** In a knitter's words. */
  readonly meaning: string;
  readonly restsOn: string;
  readonly weak: string;
}

// Birthplaces of what is said here: docs/vision.md and docs/trade.md.
export const NUMBER_HELP: Readonly<Record<NumberKey, NumberEntry>> = {
  distance: {
    meaning:
      "How far your eye is from the fabric. The words, the marks, the weights and the picture as seen are all worked out for it.",
    restsOn:
      "How large a stitch of your gauge is to an eye from there. At hand, across a table and across a room are common practice.",
    weak: "It reckons with an eye that sees sharply there, with glasses if need be, and with flat cloth that keeps still. Drape and movement are left out.",
  },
  light: {
    meaning:
      "How much light falls on the fabric, in lux: 50 by a lamp in the evening, 500 in a lit room, 10,000 by a window on a bright day.",
    restsOn: "Published measurements of how much contrast an eye needs in more and in less light (castleCSF, 2024).",
    weak: "Only how much light there is counts, not its colour: how a yarn turns under another lamp cannot be told from its shade. The three levels are common practice.",
  },
  lightness: {
    meaning: "How light a colour is: 0 is black, 100 is white, and equal steps look about equal.",
    restsOn: "CIELAB, an international standard for colours, and the shade given for the yarn.",
    weak: "It is as right as the shade: the thin bars on the ladder hold it in four cases of five. A strong colour looks lighter than its L*, and cloth may turn out lighter or darker than the ball.",
  },
  deltaL: {
    meaning:
      "How far two colours lie from each other in lightness. Knitters’ rule of thumb: under 8 they melt together, 8–15 whisper, 15–30 read, over 30 is bold.",
    restsOn: "The two shades. The steps are common practice, without a published source.",
    weak: "It knows nothing of the pattern: small shapes need more than large ones. V reckons with that.",
  },
  valueClass: {
    meaning: "Four steps from light to dark: light from L* 72, light-medium from 55, medium-dark from 35, dark below.",
    restsOn: "Common practice in planning colourwork, without a published source.",
    weak: "A yarn near a limit may belong to either side. What counts more is the order from light to dark, and how far apart.",
  },
  V: {
    meaning:
      "How far a contrast lies above what an eye can just see from there, in that light. At 1 it is only just there, from 3 it reads, from 10 it is plain at a glance.",
    restsOn:
      "Published measurements of what eyes can see (castleCSF, 2024), with your chart, gauge and shades. How much the knitting’s own texture hides is our choice, set by the knitters’ rule of thumb for lightness, until your own cloth is measured.",
    weak: "An estimate, not tested on knitting. Where hue alone tells colours apart it is least sure. A swatch settles it.",
  },
  wasV: {
    meaning: "The same, at the same distance and light, if it were knitted in the pattern’s own colours.",
    restsOn: "The shades given for the pattern’s colours, in your chart and gauge.",
    weak: "Shades picked from a picture of the pattern may be off by more than your yarns are.",
  },
  words: {
    meaning:
      "Lost: it melts into plain. Faint: no more than a texture. Clear: it reads. Strong: plain at a glance. They are V under 1, under 3, under 10, and more; your own verdicts on swatches move these limits.",
    restsOn:
      "Our choice of limits. Research on reading asks for about 3 times the least visible contrast to make things out, and 10 to read with ease (from memory).",
    weak: "Near a limit the neighbouring word may be the true one; the range tells. Not tested on knitting.",
  },
  range: {
    meaning:
      "V over your own threshold, at both ends of what is not known. Where both ends have the same word, the word is fairly safe.",
    restsOn:
      "How unsure the shades of the two yarns are; hue counted not at all or in full; and where your threshold lies in 8 of 10 cases, which your verdicts narrow.",
    weak: "It does not hold what the model itself may have wrong: the texture of your yarn, the colour of your lamp, how the cloth hangs.",
  },
  readsTo: {
    meaning:
      "The farthest distance at which it is still clear. “Never” is nearer than 0.3 m; beyond 6 m nothing more is claimed. Low and high are the same in metres, at both ends of what is not known.",
    restsOn: "V, sought from far away inwards until it is clear for your eye.",
    weak: "V falls slowly as you step back, so a small error moves it by a metre or more. Trust the word at your distance first.",
  },
  lightDark: {
    meaning:
      "What of V light and dark alone carry. If it is under 1 and V is not, the colours are told apart by hue alone, and such a pattern comes and goes with distance and light.",
    restsOn: "The same model with hue left out; the texture of the knitting hides only this part.",
    weak: "An estimate, not tested on knitting. How much hue adds to it is our choice: half.",
  },
  visualWeight: {
    meaning:
      "An estimate of a colour’s share of what draws the eye: how much of the fabric it has, times how far it lies from the ground that it is knitted on. The ground’s own is 0. Shares within a tenth of each other are about alike.",
    restsOn:
      "Colours as they are seen from your distance, a saturated one taken as lighter than its L* (High, Green and Nussbaum, 2023). The rest is a reasoned convention.",
    weak: "Tested on nobody. Look at the change against the pattern rather than at the share. A single colour on one ground has all of it, whatever its yarn.",
  },
  standsOut: {
    meaning:
      "How unlike the rest of the fabric a colour is: about 1 is usual; the rarer and the stranger a colour is, the more it has.",
    restsOn:
      "Distance from the mean of the fabric’s own colours, measured by how much they vary (a reasoned convention).",
    weak: "Tested on nobody. It always favours the rarest, so it is told only of a colour with 1 % of the stitches or in three bands.",
  },
  recurs: {
    meaning: "In how many bands a colour is met, and in how much of the fabric’s height there are rows that hold it.",
    restsOn: "Counted in the chart, row by row.",
    weak: "It counts a single stitch in a row as much as a whole row, and rows in which it is lost.",
  },
  leads: {
    meaning:
      "The one or two colours of a band that draw the eye first: no other has a tenth more visual weight. Where three or more weigh about the same, none leads.",
    restsOn: "Visual weight within the band. That a motif has one or two leading colours is common practice.",
    weak: "As weak as visual weight: an estimate, tested on nobody.",
  },
  cast: {
    meaning:
      "The colour that a band melts into from so far away that no stitch of it is seen, and a plain name for it.",
    restsOn:
      "The light of its yarns, added by how much of the band each covers. The name is the nearest of 267 published colour names (ISCC–NBS).",
    weak: "Cloth is taken to have the yarn’s own colour until a swatch of yours tells otherwise. Names are approximate, and as unsure as the shades.",
  },
  deltaE00: {
    meaning:
      "How unlike two colours look, lightness, hue and strength together. About 1 is just seen side by side; over 10 nobody takes one for the other.",
    restsOn: "CIEDE2000, an international standard. What 1 and 10 mean is from memory.",
    weak: "Made for flat samples side by side, not for stitches from afar.",
  },
  float: {
    meaning:
      "How long the strand lies loose at the back: the stitches that it passes, as wide as your gauge has them. Up to the limit it lies well; over that it wants catching.",
    restsOn: "Counted in the chart. The limit of 2.5 cm (1 in) is the trade’s usage.",
    weak: "Slack and how you hold your yarn are not in it, nor how well the yarn clings.",
  },
  alignment: {
    meaning:
      "How the middles of one band lie over those of the band below, in stitches, and how many stitches a round has over whole repeats.",
    restsOn:
      "Counted in the chart and in the rounds of the pattern. A middle is the line of mirroring where more of the figure lies.",
    weak: "A motif that leans has no middle. What looks well is your taste.",
  },
  metres: {
    meaning:
      "What the garment takes of a yarn: a loop for each stitch, the strands behind, and two tails for each start and stop.",
    restsOn:
      "The length of a loop from your gauge by Munden’s law (1959, from memory), for a swatch that was soaked and dried; strands with a tenth of slack (common practice).",
    weak: "An estimate, give or take a tenth, until your swatch is measured. Ribbing and seams count only where the pattern has them.",
  },
  grams: {
    meaning: "The metres as weight, by the metres per 100 g of the yarn.",
    restsOn: "The estimate in metres, and what is written of the yarn, on its band as a rule.",
    weak: "As unsure as the metres. Balls differ from their band, and leftovers take up damp: weigh a known length if it is tight.",
  },
  have: {
    meaning: "Metres of that yarn that you own. “Short by” is what is missing, with a tenth kept in reserve.",
    restsOn: "The weights you entered, and the metres per 100 g. The reserve is common practice.",
    weak: "As right as the weights; “?” where the weight or the thickness is not known.",
  },
  score: {
    meaning:
      "How far a way is from the pattern and your wishes, in steps of L*: lightness, contrast of neighbours, hue, loudness and what shows, added up. Less is better.",
    restsOn:
      "The pattern’s own colours as the measure. What each part counts for is our choice, and yours under “What counts” in the wishes.",
    weak: "It is a measure of likeness and not of beauty. Two ways a few steps apart are equally good; your eye decides.",
  },
  texture: {
    meaning:
      "How strongly the stitches’ own light and shadow stand out: of one stitch to the next, and of what is uneven at larger sizes. The stronger, the sooner fine patterns are hidden.",
    restsOn:
      "A photograph of a plain swatch where you gave one; else 0.12 and 0.025, our choice, set so that the words agree with the trade’s rule of thumb.",
    weak: "No measured contrast of knitted wool is published. A lamp from the side makes shadows stronger than window light does.",
  },
  clothFactor: {
    meaning: "How much of the ball’s light the knitted cloth gives back: 1 is as much, 0.9 a tenth less.",
    restsOn: "A photograph that shows swatch and wound yarn in one light; else 1, for no published figure is known.",
    weak: "The camera’s tone curve and uneven light shift it by some hundredths; its range says by how many.",
  },
  gap: {
    meaning:
      "A way is scored by how far its light and dark, its contrasts, hues and loudness are from the pattern’s, or from your wishes. No way at all can score better than this one by more than the per cent that is told.",
    restsOn: "An exact search of your yarns. “None better” is proven, to a rounding.",
    weak: "Proven is the score, not the beauty: what a unit of each part costs is our choice.",
  },
  differs: {
    meaning: "The part of the stitches that would have another yarn than in the first way: a quarter at least.",
    restsOn: "Counted in the chart. The quarter is our choice, so that the ways differ at a glance.",
    weak: "Another yarn may look much the same.",
  },
  mend: {
    meaning:
      "The word that the place would have after the change, or its share of the visual weight, and V before and after.",
    restsOn: "The whole garment judged again with that change: the finding goes, and no new one comes.",
    weak: "As unsure as V itself. Of all changes only some are tried: yarns near in lightness, two yarns swapped, stitches laid on.",
  },
  threshold: {
    meaning:
      "How much contrast you need, against an ordinary eye: under 1 you see more than most, over 1 less. The words go by it; V does not.",
    restsOn: "Your verdicts on swatches, weighed against what is likely before any (our choice).",
    weak: "Several looks at one swatch count as if each was a fresh one, and a yarn whose shade is wrong counts as your eye’s doing.",
  },
  eye: {
    meaning:
      "The fabric, its words and its numbers as they are to an eye that lacks one kind of cone. About one man in twelve confuses red and green to some degree.",
    restsOn: "A published simulation (Machado, Oliveira and Fernandes, 2009). How many: common knowledge, from memory.",
    weak: "For the most complete form; people differ. The blue-weak form is the least sure of the three.",
  },
  trial: {
    meaning:
      "Every yarn put in this place in turn, with all other yarns as they are: how many rows of the charts would be lost or faint, and the weakest row or figure that has it.",
    restsOn: "The same numbers as everywhere on the page, at your distance and light.",
    weak: "A row that is lost may be lost in the pattern too, which is told at the top. Estimates, not tested on knitting.",
  },
  shapes: {
    meaning: "How many small shapes of one repeat are lost in their place while larger ones of the same colour show.",
    restsOn: "Counted in the chart, each shape with a V of its own.",
    weak: "As unsure as V.",
  },
};
