/** What a project file looks like: the one description that reading checks by and that is published as JSON Schema. */
import * as z from "zod/mini";
import * as part from "./shapes.ts";
import { wishShape } from "./wish.ts";

const { object, list, optional, id, colourId, text } = part;

const band = object({
  rows: part.range,
  want: optional(part.want),
  name: optional(text),
  ground: optional(list(colourId, "chart colours")),
  repeat: optional(part.wholeFrom1),
  axis: optional(z.nullable(part.column)),
  echoOf: optional(z.nullable(part.range)),
  seeding: optional(part.flag),
  meant: optional(part.flag),
});

const chart = object({
  id,
  name: optional(text),
  worked: optional(z.enum(["round", "flat"], "round or flat")),
  rows: list(text, "rows, one text a row").check(
    z.minLength(1, "at least one row"),
    z.meta({ description: 'Top row first, one character a stitch: the id of a chart colour, or "-" for no stitch.' }),
  ),
  bands: optional(
    list(band, "bands").check(
      z.meta({
        description: "Rows count from 1 at the bottom; what is said of a band stands for what would be found.",
      }),
    ),
  ),
});

const beside = object({
  kind: z.enum(["steek", "panel"], "steek or panel"),
  name: optional(text),
  stitches: part.bySize(part.wholeFrom0),
  after: optional(part.bySize(part.wholeFrom0)),
  skips: optional(part.bySize(part.wholeFrom0)),
}).check(
  z.meta({ description: "Stitches in every round that are not the chart's, worked in the round's strands by turns." }),
);

const decreases = list(
  object({
    round: part.wholeFrom1,
    to: part.wholeFrom1,
    atStart: optional(part.wholeNumber),
    at: optional(list(text, "names")),
  }),
  "decreases",
);

const section = object({
  id,
  name: optional(text),
  chart: id,
  startRow: optional(part.wholeFrom1),
  rounds: part.bySize(part.wholeFrom0),
  stitches: part.bySize(part.wholeFrom1),
  startColumn: optional(part.bySize(part.wholeFrom1)),
  decreases: optional(part.bySize(decreases)),
  gauge: optional(z.nullable(part.gauge)),
  on: optional(part.flag),
  beside: optional(list(beside, "stitches beside the chart's")),
  from: optional(
    list(id, "ids of sections").check(
      z.meta({ description: "Sections whose stitches it goes on with or picks up; none for one that is cast on." }),
    ),
  ),
});

const pattern = object({
  name: optional(text),
  gauge: part.gauge,
  colours: list(
    object({
      id: colourId,
      name: optional(text),
      role: optional(z.enum(["main", "contrast"], "main or contrast")),
      shade: part.shade,
    }),
    "the chart's colours",
  ).check(z.minLength(1, "at least one colour")),
  charts: list(chart, "charts").check(z.minLength(1, "at least one chart")),
  sizes: optional(list(object({ id, name: optional(text), chestCm: optional(part.above0) }), "sizes")),
  sections: optional(list(section, "sections")),
});

const colourway = object({
  id,
  name: optional(text),
  from: optional(z.nullable(text)),
  note: optional(text),
  yarns: z
    .record(z.string(), id, "an object with a yarn id for each chart colour")
    .check(z.meta({ description: "Chart colour to yarn id." })),
  changes: optional(part.changes),
  overStitched: optional(part.overStitched),
  wish: optional(wishShape),
});

const swatch = object({
  id,
  date: optional(text),
  chart: id,
  rows: optional(part.range),
  colourway: id,
  washed: optional(part.flag),
  gauge: optional(z.nullable(part.gauge)),
  gaugeBefore: optional(z.nullable(part.gauge)),
  looks: optional(
    list(
      object({
        at: part.place,
        distanceM: part.above0,
        lux: optional(part.above0),
        verdict: part.verdict,
        note: optional(text),
      }),
      "looks",
    ),
  ),
});

const knitting = object({
  section: optional(id),
  round: optional(part.wholeFrom0),
  floatCm: optional(part.floatCm),
  heldLow: optional(z.enum(["ground", "pattern"], "ground or pattern")),
  loop: optional(
    object({ mm: part.above0, gauge: part.gauge, within: part.share }).check(
      z.meta({ description: "Yarn in one plain stitch as she measured it, at which gauge, and its error as a share." }),
    ),
  ),
  slack: optional(part.share),
  reserve: optional(part.share),
  joins: optional(z.enum(["tails", "spliced"], "tails or spliced")),
  weighed: optional(
    list(object({ yarn: id, grams: part.from0, after: object({ section: id, round: part.wholeFrom0 }) }), "weighings"),
  ),
});

const cloth = object({
  factor: optional(part.clothFactor),
  texture: optional(object({ stitch: part.share, floor: part.share })),
  note: optional(text),
}).check(
  z.meta({
    description:
      "What a plain swatch measured: factor is cloth over yarn in linear light, texture the root mean square contrast of the stitch and of the rest.",
  }),
);

export const projectShape = object({
  format: z.literal("twostrand-project"),
  version: z.literal(1),
  name: text,
  pattern,
  yarns: list(part.yarn, "yarns"),
  colourways: list(colourway, "colourways"),
  swatches: optional(list(swatch, "swatches")),
  cloth: optional(cloth),
  knitting: optional(knitting),
}).check(
  z.meta({
    title: "Twostrand project, version 1",
    description: "One garment's decisions about colour. Unknown fields are allowed everywhere and are kept.",
  }),
);

/** The schema of the project file: JSON Schema 2020-12, as an object ready for JSON. */
export const projectSchema = (): object => z.toJSONSchema(projectShape, { target: "draft-2020-12" });
