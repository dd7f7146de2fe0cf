/** The parts of a stored file, each with what is expected of it in words: checks, sentences and the published schema come from here. */
import * as z from "zod/mini";
import { SHADE_SOURCES } from "../colour/shade.ts";
import type { Place } from "../garment/place.ts";

// A page may forbid code made at run time; without this zod would try it once.
z.config({ jitless: true });

/** Rounds, stitches, rows: far above any garment, so that a slip of the finger cannot fill the memory. Our choice. */
const MOST = 100_000;

/** Names that every JavaScript object answers to: as ids they would be found where nobody has put them. */
const KEPT_WORDS =
  "__proto__|__defineGetter__|__defineSetter__|__lookupGetter__|__lookupSetter__|constructor|hasOwnProperty|isPrototypeOf|propertyIsEnumerable|toLocaleString|toString|valueOf";
const ID_PATTERN = new RegExp(`^(?!(?:${KEPT_WORDS})$)[\\s\\S]+$`);
const ID_WORDS = "an id (a text that is not empty and no word kept by the program)";

/**
 * One printable character, no space, quote, backslash or "-"; one code unit, because a row has one for every stitch.
 * Written without property classes, which the pattern language of other programs that read the schema may lack.
 */
const COLOUR_PATTERN =
  /^[^\s"\\\-\u0000-\u0020\u007f-\u00a0\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u206f\ud800-\udfff\ufeff]$/;
/** What those ranges leave over: unassigned, private and combining characters, which do not stand for themselves. */
const STANDS_ALONE = /^[^\p{C}\p{Z}\p{M}]$/u;
const COLOUR_WORDS = 'one printable character that is not a space, a quote, a backslash or "-"';

const HEX_PATTERN = /^#(?:[0-9A-Fa-f]{3}|[0-9A-Fa-f]{6})$/;

export const object = <T extends Record<string, z.core.SomeType>>(shape: T) => z.looseObject(shape, "an object");
export const list = <T extends z.core.SomeType>(item: T, words: string) => z.array(item, `a list of ${words}`);
export const optional = z.exactOptional;

export const text = z.string("a text");
export const id = z.string(ID_WORDS).check(z.regex(ID_PATTERN, ID_WORDS), z.meta({ id: "Id" }));
export const colourId = z.string(COLOUR_WORDS).check(
  z.regex(COLOUR_PATTERN, COLOUR_WORDS),
  z.refine((value) => value.length !== 1 || STANDS_ALONE.test(value), COLOUR_WORDS),
  z.meta({ id: "ColourId", description: COLOUR_WORDS }),
);
export const flag = z.boolean("true or false");

const within = (least: number, most: number, words: string) =>
  z.number(words).check(z.gte(least, words), z.lte(most, words));
/** Far above anything that is knitted, weighed or looked at, so that no sum of a file's numbers is ever too large to hold. Our choice. */
const LARGEST = 1_000_000;

const upTo = (most: number) => z.lte(most, `a number up to ${most}`);
export const above0 = z.number("a number above 0").check(z.gt(0, "a number above 0"), upTo(LARGEST));
export const from0 = z.number("a number of 0 or more").check(z.gte(0, "a number of 0 or more"), upTo(LARGEST));
/** A stitch between a tenth of a millimetre and a metre wide: sewing thread to a giant's rope. Our choice. */
const perTenCm = z
  .number("a number above 0")
  .check(z.gt(0, "a number above 0"), z.gte(0.1, "a number of 0.1 or more"), upTo(1000));
export const share = within(0, 1, "a share between 0 and 1");
/** Cloth over yarn in linear light: no wool turns five times darker or half as light again by being knitted. Our choice. */
export const clothFactor = within(0.2, 1.5, "a number between 0.2 and 1.5");
export const anyNumber = z.number("a number");

const whole = (least: number) => {
  const words = `a whole number from ${least} to ${MOST}`;
  return z.int(words).check(z.gte(least, words), z.lte(MOST, words));
};
export const wholeFrom0 = whole(0);
export const wholeFrom1 = whole(1);
export const wholeNumber = whole(-MOST);

const COLUMN_WORDS = "a column from 1 at the right edge, or .5 between two";
export const column = z.number(COLUMN_WORDS).check(z.gte(1, COLUMN_WORDS), upTo(MOST), z.multipleOf(0.5, COLUMN_WORDS));

/** No strand of a millimetre, and none of a forearm: a slip of the finger. Our choice. */
export const floatCm = within(0.5, 20, "a number of centimetres between 0.5 and 20");

const RANGE_WORDS = "two whole numbers [from, to], from 1, in this order";
export const range = z.tuple([wholeFrom1, wholeFrom1], RANGE_WORDS).check(
  z.refine(([from, to]) => from <= to, RANGE_WORDS),
  z.meta({ description: "[from, to], both included." }),
);

export const bySize = <T extends z.core.SomeType>(value: T) =>
  z.record(z.string(), value, "an object with a value by size id");

export const verdict = z.enum(["lost", "faint", "clear", "strong"], "lost, faint, clear or strong");
export const want = z.enum(["soft", "clear", "strong"], "soft, clear or strong");

const oneOf = (keys: readonly string[]) => z.meta({ anyOf: keys.map((key) => ({ required: [key] })) });

/** L* 0 to 100; a* and b* as far as any surface reaches under D65 with room to spare (from memory; optimal colours stay inside ±160). */
export const lab = z.tuple(
  [
    within(0, 100, "L* between 0 and 100"),
    within(-160, 160, "a* between -160 and 160"),
    within(-160, 160, "b* between -160 and 160"),
  ],
  "three numbers, L* a* b*",
);

export const shade = object({
  hex: optional(z.string("a colour like #e8e2d2").check(z.regex(HEX_PATTERN, "a colour like #e8e2d2"))),
  lab: optional(lab),
  uncertainty: optional(within(0, 100, "a number between 0 and 100")),
  from: optional(z.enum(SHADE_SOURCES, "label, photo, screen, eye or picture")),
}).check(
  z.refine((value) => "hex" in value || "lab" in value, "a shade with hex or lab"),
  oneOf(["hex", "lab"]),
  z.meta({
    id: "Shade",
    description:
      "hex is sRGB; lab is CIELAB, D65, 2°, and counts where both are given; uncertainty is a CIEDE2000 difference that holds the truth in 80 % of cases; from is how it is known.",
  }),
);

export const gauge = object({ stitches: perTenCm, rows: perTenCm }).check(
  z.meta({ id: "Gauge", description: "Stitches and rows per 10 cm." }),
);

const PLACE_WORDS = "a place with either a section or a chart";
const placeShape = object({
  section: optional(id),
  rounds: optional(range),
  chart: optional(id),
  rows: optional(range),
}).check(
  z.refine((value) => "section" in value !== "chart" in value, PLACE_WORDS),
  z.meta({
    id: "Place",
    description:
      "{ section, rounds } or { chart, rows }; without rounds or rows all of it; a chart place means every use of that chart.",
    oneOf: [{ required: ["section"] }, { required: ["chart"] }],
  }),
);

/** A union would do without the refinement, but could not say which field is wrong. */
export const place = placeShape as unknown as z.ZodMiniType<Place>;

export const lot = object({ id, lot: optional(text), grams: optional(from0), weighed: optional(flag) });
export const fleck = object({ shade, share, lengthMm: optional(above0) });

const CLASS_WORDS = "a whole number from 0 (lace) to 7 (jumbo)";
/** Characters: a picture of a few hundred pixels; more would make her files heavy. Our choice. */
const LONGEST_PHOTO = 60_000;
const PHOTO_WORDS = `a small picture as data:image/… in base64, at most ${LONGEST_PHOTO} characters`;
const photo = z
  .string(PHOTO_WORDS)
  .check(
    z.regex(/^data:image\/(?:jpeg|png|webp);base64,[A-Za-z0-9+/=]+$/, PHOTO_WORDS),
    z.maxLength(LONGEST_PHOTO, PHOTO_WORDS),
  );

const YARN_COLOUR_WORDS = "a yarn with a shade, or with flecks that have a share";
export const yarn = object({
  id,
  name: text,
  shade: optional(shade),
  metresPer100g: optional(above0),
  lots: optional(list(lot, "lots")),
  grams: optional(from0),
  flecks: optional(list(fleck, "flecks")),
  maker: optional(text),
  fibre: optional(text),
  note: optional(text),
  plies: optional(wholeFrom1),
  weightClass: optional(z.int(CLASS_WORDS).check(z.gte(0, CLASS_WORDS), z.lte(7, CLASS_WORDS))),
  superwash: optional(flag),
  handDyed: optional(flag),
  photo: optional(photo),
  shelf: optional(id),
}).check(
  z.refine((value) => "shade" in value || (value.flecks ?? []).some((part) => part.share > 0), YARN_COLOUR_WORDS),
  oneOf(["shade", "flecks"]),
  z.meta({ id: "Yarn", description: "A yarn one can hold. grams without lots is read as one lot." }),
);

export const changes = list(object({ at: place, colour: colourId, yarn: id, note: optional(text) }), "changes").check(
  z.meta({ description: "Exceptions by place; later ones win." }),
);

const CELL_WORDS = "a stitch as [row, column], from 1 at the bottom right";
const CORNER_WORDS = "a cell corner as [row line, column line], from 0 at the bottom right";
const corner = z.tuple([wholeFrom0, wholeFrom0], CORNER_WORDS);

export const overStitched = list(
  object({
    at: place,
    cells: optional(list(z.tuple([wholeFrom1, wholeFrom1], CELL_WORDS), "stitches")),
    lines: optional(list(z.tuple([corner, corner], "a line as two cell corners"), "lines")),
    yarn: id,
  }),
  "stitches laid on top",
);
