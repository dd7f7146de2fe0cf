/** Strands that pass too many stitches at the back. */
import type { Severity } from "../base/problem.ts";
import { oncePer } from "../base/oncePer.ts";
import { catchesIn, laddersIn, type Catch } from "../chart/catches.ts";
import { NO_STITCH, type Grid } from "../chart/chart.ts";
import { floatsInRow, type Float as ChartFloat } from "../chart/floats.ts";
import { areaKeyOf } from "../fabric/areas.ts";
import type { Cloth } from "../fabric/cloth.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { stitchSizeMm } from "../garment/gauge.ts";
import { capital, namedInk, rowsText, shortList, told, yarnName, type AuditContext, type Judged } from "./context.ts";
import type { Finding, Mend } from "./finding.ts";
import { THRESHOLDS } from "./thresholds.ts";

export function floats(context: AuditContext): Finding[] {
  return context.charts.flatMap((judged) => {
    const { longestIn, catches, limit } = strandsOf(judged.now.cloth, context.floatCm, context.pattern);
    const runs: Float[][] = [];
    for (const { row, band } of judged.now.rows) {
      const longest = longestIn[row - 1];
      if (!longest || longest.length <= limit) continue;
      const float = { ...longest, band, severity: severityOf(longest.length, limit) };
      const run = runs.at(-1);
      if (run && goesOn(run.at(-1)!, float)) run.push(float);
      else runs.push([float]);
    }
    return runs.map((run) => floatFinding(context, judged, run, { limit, catches }));
  });
}

interface Float extends ChartFloat {
  readonly band: number;
  readonly severity: Severity;
}

/** Twice the limit can be caught on the way; more cannot. Common practice: see trade.md 3. */
const severityOf = (length: number, limit: number): Severity => (length <= 2 * limit ? "doubt" : "fault");

/** Neighbouring rows of a band with the same strand are told of together. */
const goesOn = (below: Float, float: Float): boolean =>
  below.row + 1 === float.row &&
  below.band === float.band &&
  below.colour === float.colour &&
  below.severity === float.severity;

/** Stitches that a strand may pass uncaught: floor(2.5 cm × gauge / 10 cm), or as many cm as she says. At 28 stitches: 7. */
export const comfortableFloat = (stitchesPer10cm: number, floatCm: number = THRESHOLDS.floatCm): number =>
  Math.max(1, Math.floor((floatCm * stitchesPer10cm) / 10 + 1e-9));

export interface Strands {
  /** The stitches by strand: colours in one yarn are one. The ids are the strands' names, those of the inks of the cloth. */
  readonly laid: Grid;
  /** The longest float of every row, lowest first. The index of its colour is an ink of the strand's yarn. */
  readonly longestIn: readonly (ChartFloat | undefined)[];
  /** Where those that can be caught are caught. */
  readonly catches: readonly Catch[];
  readonly limit: number;
}

/** The strands are what is knitted, by yarn, without what is laid on afterwards. */
export function strandsOf(
  { chart, grid, inks, knitted, gauge }: Cloth,
  floatCm: number,
  { sections = [] }: Pick<Pattern, "sections">,
): Strands {
  const keyOf = inks.map(areaKeyOf);
  const strandOf = keyOf.map((key) => keyOf.indexOf(key));
  const limit = comfortableFloat(gauge.stitches, floatCm);
  const worked = chart.worked ?? "round";
  const again = sections.some(
    (section) =>
      section.chart === chart.id &&
      section.on !== false &&
      Object.values(section.rounds).some((rounds) => rounds > grid.height),
  );
  const known = knownStrands(knitted);
  const key = `${worked} ${limit} ${again} ${strandOf.join()}`;
  let strands = known.get(key);
  if (!strands) {
    const cells = knitted.map((ink) => (ink === NO_STITCH ? NO_STITCH : strandOf[ink]!));
    const laid: Grid = { width: grid.width, height: grid.height, ids: keyOf, cells };
    const longestIn = Array.from(
      { length: grid.height },
      (_, row) => floatsInRow(laid, row + 1, worked).sort((a, b) => b.length - a.length)[0],
    );
    const { catches } = longestIn.some((longest) => longest && longest.length > limit)
      ? catchesIn(laid, [1, grid.height], limit, { worked, longest: 2 * limit, again })
      : { catches: [] };
    known.set(key, (strands = { laid, longestIn, catches, limit }));
  }
  return strands;
}

/** They depend on which colours share a yarn, not on which yarn it is. */
const knownStrands = oncePer((_knitted: Uint8Array) => new Map<string, Strands>());

function floatFinding(
  context: AuditContext,
  { chart, section, now }: Judged,
  run: readonly Float[],
  { limit, catches }: Pick<Strands, "limit" | "catches">,
): Finding {
  const { cloth } = now;
  const [{ row: from, colour, severity, band }] = run as [Float];
  const rows: [number, number] = [from, run.at(-1)!.row];
  const longest = Math.max(...run.map(({ length }) => length));
  const ink = cloth.inks[colour]!;
  const name = namedInk(context, ink.colour, ink.yarn);
  const centimetres = (longest * stitchSizeMm(cloth.gauge).widthMm) / 10;
  const upTo = rows[0] === rows[1] ? "" : "up to ";
  const here = catches.filter((one) => one.colour === colour && one.row >= rows[0] && one.row <= rows[1]);
  const ladders = severity === "fault" ? laddersIn(cloth.grid, run.toSorted((a, b) => b.length - a.length)[0]!) : [];
  const advice =
    severity === "doubt"
      ? `Catch it ${catchText(here)}, or lay those stitches on in duplicate stitch.`
      : "Too long to catch: ladderback, or lay those stitches on in duplicate stitch.";
  const mend = laidOn(context, cloth, rows, colour);
  return {
    id: `floats/${section ? `${chart.id}@${section}` : chart.id}/${rows[0] === rows[1] ? from : rows.join("-")}/${ink.colour}`,
    severity,
    where: {
      chart: chart.id,
      rows,
      band: now.bands[band]!.band.id,
      colours: [ink.colour],
      yarns: ink.yarn === null ? [] : [ink.yarn],
      ...(section ? { section } : {}),
    },
    numbers: { stitches: longest, limit, centimetres },
    headline: `${capital(rowsText(rows))}: ${name} floats over ${upTo}${longest} stitches`,
    sentence: `The ${name} strand passes ${upTo}${longest} stitches, ${told(centimetres)} cm; at this gauge up to ${limit} lie well (${told(context.floatCm)} cm, ${context.floatCm === THRESHOLDS.floatCm ? "common practice" : "as you set it"}). ${advice}`,
    ...(here.length > 0 ? { catches: here.map(({ row, column }): [number, number] => [row, column]) } : {}),
    ...(ladders.length > 0 ? { ladders } : {}),
    ...(mend ? { mends: [mend] } : {}),
  };
}

/** Rows of which the places are told one by one. */
const ROWS_TOLD = 2;

/** "once or twice on the way, behind columns 6 and 18", counted from the right. */
function catchText(catches: readonly Catch[]): string {
  const rows = [...new Set(catches.map(({ row }) => row))];
  const columnsIn = (row: number): string[] => catches.flatMap((one) => (one.row === row ? [String(one.column)] : []));
  const behind = (columns: readonly string[]): string =>
    `behind ${columns.length === 1 ? "column" : "columns"} ${shortList(columns)}`;
  const times = "once or twice on the way";
  if (rows.length === 0) return times;
  if (rows.length === 1) return `${times}, ${behind(columnsIn(rows[0]!))}`;
  return rows.length > ROWS_TOLD
    ? `${times}, in each row behind other columns than in the one below`
    : `${times}, ${rows.map((row) => `in row ${row} ${behind(columnsIn(row))}`).join(", ")}`;
}

/** Few stitches in the carried yarn: its rows are knitted in the other and they are laid on. Only for rows of two yarns. */
function laidOn(context: AuditContext, cloth: Cloth, rows: [number, number], strand: number): Mend | null {
  const { width } = cloth.grid;
  const own = cloth.inks[strand]!;
  const cells: [number, number][] = [];
  const others = new Set<string | null>();
  for (let row = rows[0]; row <= rows[1]; row++) {
    for (let column = 1; column <= width; column++) {
      const index = cloth.knitted[(row - 1) * width + column - 1]!;
      if (index === NO_STITCH) continue;
      const ink = cloth.inks[index]!;
      if (ink.yarn === own.yarn && ink.colour === own.colour) cells.push([row, column]);
      else others.add(ink.yarn);
    }
  }
  const [ground] = others;
  const height = rows[1] - rows[0] + 1;
  // Laying on more than a quarter of a row is more work than catching floats; our choice.
  if (others.size !== 1 || !ground || ground === own.yarn || own.yarn === null || cells.length * 4 > width * height)
    return null;
  const at = { chart: cloth.chart.id, rows };
  const { id: colourway } = context.colourway;
  const stitched = { at, cells, yarn: own.yarn };
  const change = `Knit ${rowsText(rows)} in ${yarnName(context, ground)} alone and lay ${yarnName(context, own.yarn)} on in duplicate stitch: ${cells.length} of ${width * height} stitches`;
  return {
    kind: "laidOn",
    edits: [
      { kind: "addChange", colourway, change: { at, colour: own.colour, yarn: ground } },
      { kind: "overStitch", colourway, stitched },
    ],
    colour: own.colour,
    from: own.yarn,
    to: ground,
    at,
    overStitched: [stitched],
    change,
    effect: "",
    sentence: change,
    numbers: { stitches: cells.length },
  };
}
