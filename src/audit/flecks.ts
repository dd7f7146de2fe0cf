/** Do lengths of a variegated yarn come near to the colour that it is knitted against, so that stitches vanish in patches? */
import { deltaE2000 } from "../colour/difference.ts";
import type { Lab } from "../colour/lab.ts";
import { plainName } from "../colour/names.ts";
import type { Area } from "../fabric/areas.ts";
import type { RowMeasure } from "../fabric/measures.ts";
import { fleckKindIn, partsAlong, stitchLengthMm, type YarnPart } from "../fabric/yarnRuns.ts";
import { capital, namedInk, rowsText, told, type AuditContext, type Judged } from "./context.ts";
import type { Finding } from "./finding.ts";
import { THRESHOLDS } from "./thresholds.ts";

/**
 * Flecks finer than a stitch are seen as one shade with the rest, so heathers, tweeds and marls raise nothing here. Where nobody
 * has said how long they last, a large part of the yarn is worth a note: it may be a variegated one.
 */
export function flecks(context: AuditContext): Finding[] {
  return context.charts.flatMap((judged) => {
    const meetings = new Map<string, Meeting>();
    const spun = spunYarns(judged);
    if (spun.size === 0) return [];
    for (const row of judged.now.rows)
      for (const meeting of meetingsIn(row, spun, judged, context)) {
        const key = `${meeting.area.key}/${meeting.part}/${meeting.against.key}`;
        const known = meetings.get(key);
        if (known) known.rows.push(...meeting.rows);
        else meetings.set(key, meeting);
      }
    const all = judged.now.cloth.cells.length;
    return [...meetings.values()]
      .filter((meeting) => affected(meeting) >= THRESHOLDS.fleckStitches * all)
      .map((meeting) => findingOf(context, judged, meeting));
  });
}

/** Rows in which a yarn's lengths of one colour meet another yarn of nearly their value. */
interface Meeting {
  readonly area: Area;
  readonly against: Area;
  /** Index of the part among the yarn's colours. */
  readonly part: number;
  readonly fleck: YarnPart;
  /** Whether anybody has said how long its colours last. */
  readonly lengthKnown: boolean;
  /** Of each row of the chart its number and how many of its stitches are in the yarn. */
  readonly rows: { readonly row: number; readonly stitches: number }[];
}

/** Stitches of the chart that vanish, about: they fall where the yarn happens to be. */
const affected = ({ rows, fleck }: Meeting): number =>
  rows.reduce((sum, { stitches }) => sum + stitches * fleck.share, 0);

interface Spun {
  readonly parts: readonly YarnPart[];
  readonly lengthKnown: boolean;
}

/** The colours of the yarns that are variegated or, for all that anybody has said, may be; by yarn. */
function spunYarns({ now: { cloth } }: Judged): Map<string, Spun> {
  const spun = new Map<string, Spun>();
  for (const { yarn, lab, flecks } of cloth.inks) {
    if (yarn === null || flecks.length === 0) continue;
    const lengthKnown = flecks.some(({ lengthMm }) => lengthMm !== undefined);
    if (lengthKnown && fleckKindIn(flecks, cloth.gauge) !== "variegated") continue;
    spun.set(yarn, { parts: partsAlong({ lab, flecks }, stitchLengthMm(cloth.gauge)), lengthKnown });
  }
  return spun;
}

function meetingsIn(
  { row, band, contrast: { areas, V } }: RowMeasure,
  spun: ReadonlyMap<string, Spun>,
  { now }: Judged,
  { limits }: AuditContext,
): Meeting[] {
  // What is not clear as a whole is told of as such, and what she wants soft may vanish.
  if (areas.length < 2 || V === null || V < limits.clear || now.bands[band]!.band.want === "soft") return [];
  const width = now.cloth.grid.width;
  const repeat = areas.reduce((sum, { stitches }) => sum + stitches, 0);
  return areas.flatMap((area) => {
    const { parts, lengthKnown } = spun.get(area.yarn ?? "") ?? NONE;
    const least = lengthKnown ? THRESHOLDS.fleckShare : THRESHOLDS.fleckShareUnsaid;
    return parts.flatMap((fleck, part) =>
      areas
        .filter((against) => against !== area && fleck.share >= least && vanishes(fleck, area.lab, against.lab))
        .map((against): Meeting => {
          const stitches = (area.stitches / Math.max(1, repeat)) * width;
          return { area, against, part, fleck, lengthKnown, rows: [{ row, stitches }] };
        }),
    );
  });
}

const NONE: Spun = { parts: [], lengthKnown: true };

function vanishes({ lab }: YarnPart, whole: Lab, against: Lab): boolean {
  return (
    Math.abs(lab[0] - against[0]) < THRESHOLDS.oneValue &&
    Math.abs(whole[0] - against[0]) >= THRESHOLDS.oneValue &&
    deltaE2000(lab, against) < THRESHOLDS.fleckHue
  );
}

function findingOf(context: AuditContext, { chart, section, now }: Judged, meeting: Meeting): Finding {
  const { area, against, fleck, lengthKnown, rows } = meeting;
  const name = namedInk(context, area.colours[0]!, area.yarn);
  const other = namedInk(context, against.colours[0]!, against.yarn);
  const range: [number, number] = [rows[0]!.row, rows.at(-1)!.row];
  const deltaL = Math.abs(fleck.lab[0] - against.lab[0]);
  const meanDeltaL = Math.abs(area.lab[0] - against.lab[0]);
  const long = fleck.lengthMm / stitchLengthMm(now.cloth.gauge);
  const colour = plainName(fleck.lab);
  const where = rows.length === range[1] - range[0] + 1 ? rowsText(range) : `${rows.length} rows`;
  const nearly = deltaL < 0.5 ? `of the same value as ${other}` : `only ${told(deltaL)} apart from ${other} in L*`;
  return {
    id: `flecks/${section ? `${chart.id}@${section}` : chart.id}/${area.colours.join("")}-${against.colours.join("")}/${meeting.part + 1}`,
    severity: lengthKnown ? "doubt" : "note",
    where: {
      chart: chart.id,
      rows: range,
      colours: [...area.colours, ...against.colours],
      yarns: [area.yarn, against.yarn].filter((yarn) => yarn !== null),
      ...(section ? { section } : {}),
    },
    numbers: {
      share: fleck.share,
      lengthMm: lengthKnown ? fleck.lengthMm : null,
      stitchesLong: lengthKnown ? long : null,
      affected: affected(meeting) / now.cloth.cells.length,
      rows: rows.length,
      deltaL,
      deltaE00: deltaE2000(fleck.lab, against.lab),
      meanDeltaL,
    },
    headline: lengthKnown
      ? `${capital(name)} on ${other}: its ${colour} lengths vanish`
      : `${capital(name)} on ${other}: its ${colour} part may vanish`,
    sentence: lengthKnown
      ? `${capital(name)} is ${told(100 * fleck.share)} % ${colour}, in lengths of about ${stitchesText(long)}. ` +
        `They are ${nearly}, while the yarn as a whole is ${told(meanDeltaL)} apart: ` +
        `in ${where} the pattern goes under in patches. A swatch settles it.`
      : `${capital(name)} is ${told(100 * fleck.share)} % ${colour}, ${nearly}, while the yarn as a whole is ` +
        `${told(meanDeltaL)} apart. Nobody has said how long its colours last: finer than a stitch they are seen as one shade; ` +
        `longer, the pattern goes under in patches in ${where}. A swatch settles it.`,
  };
}

const stitchesText = (count: number): string => {
  const whole = Math.max(1, Number(count.toPrecision(count < 10 ? 1 : 2)));
  return whole === 1 ? "one stitch" : `${whole} stitches`;
};
