/** A wish as it is stored, in a colourway or in a file of its own: its structure; what it names is judged where it is granted. */
import * as z from "zod/mini";
import type { Outcome } from "../base/problem.ts";
import { readJson } from "./json.ts";
import * as part from "./shapes.ts";
import { checkShape } from "./structure.ts";

const { object, list, optional, text } = part;

const PAIR_WORDS = "two chart colours";
const LOOK_WORDS = "a look with either a colour or a band";
const KEEP_WORDS = "each colour kept once, but at places of its own";
const ALLOW_WORDS = "true, false or a list of pairs of chart colours";

/** Beyond a hundred times one term is all there is. Our choice. */
const MOST_FACTOR = 100;
const factor = z
  .number(`a number between 0 and ${MOST_FACTOR}`)
  .check(
    z.gte(0, `a number between 0 and ${MOST_FACTOR}`),
    z.lte(MOST_FACTOR, `a number between 0 and ${MOST_FACTOR}`),
  );

export const wishShape = object({
  keep: optional(
    list(
      object({ colour: part.colourId, yarn: part.id, at: optional(part.place) }),
      "colours that keep their yarn",
    ).check(
      z.refine((kept) => {
        const everywhere = kept.filter(({ at }) => at === undefined);
        return new Set(everywhere.map(({ colour }) => colour)).size === everywhere.length;
      }, KEEP_WORDS),
      z.meta({ description: "With a place only there, otherwise everywhere; later places win." }),
    ),
  ),
  never: optional(list(part.id, "yarn ids")),
  only: optional(z.union([list(part.id, "yarn ids"), z.literal("stash")], 'a list of yarn ids, or "stash"')),
  ladder: optional(z.enum(["same", "reversed", "free"], "same, reversed or free")),
  look: optional(
    list(
      object({ colour: optional(part.colourId), band: optional(text), be: text }).check(
        z.refine((look) => "colour" in look !== "band" in look, LOOK_WORDS),
        z.meta({ oneOf: [{ required: ["colour"] }, { required: ["band"] }] }),
      ),
      "looks",
    ).check(z.meta({ description: "be: like-original, quieter, louder, light, dark or hue:NAME." })),
  ),
  bands: optional(list(object({ band: text, want: part.want }), "bands with what is wanted of them")),
  share: optional(
    object({
      allow: z.union([z.boolean(), z.array(z.tuple([part.colourId, part.colourId], PAIR_WORDS))], ALLOW_WORDS),
    }),
  ),
  character: optional(z.enum(["close", "usual", "free"], "close, usual or free")),
  fabric: optional(z.enum(["quieter", "louder"], "quieter or louder")),
  echoes: optional(z.enum(["alike"], "alike")),
  use: optional(list(part.id, "yarn ids")),
  together: optional(
    object({ thickness: optional(part.flag), felting: optional(part.flag), lots: optional(part.flag) }),
  ),
  weights: optional(
    object({
      value: optional(factor),
      contrast: optional(factor),
      hue: optional(factor),
      loudness: optional(factor),
      showing: optional(factor),
    }).check(z.meta({ description: "Factors on the usual weights of the score's terms." })),
  ),
  buy: optional(part.wholeFrom0),
  ways: optional(part.wholeFrom1),
}).check(
  z.meta({ id: "Wish", description: "What a recolouring should keep, allow and look like; every part is optional." }),
);

/** The fields of a wish. */
export const WISH_PARTS: readonly string[] = Object.keys(wishShape.shape);

export type StoredWish = z.infer<typeof wishShape>;

export function readWish(source: string): Outcome<StoredWish> {
  const { value, problems } = readJson(source);
  const wrong = problems.length > 0 ? problems : checkShape(wishShape, value);
  return wrong.length > 0 ? { value: null, problems: wrong } : { value: value as StoredWish, problems: [] };
}
