/** Strands that pass too many stitches at the back. */
import { NO_STITCH, type Grid } from "../chart/chart.ts";
import { floatsInRow } from "../chart/floats.ts";
import type { Cloth } from "../fabric/cloth.ts";
import { stitchSizeMm } from "../garment/gauge.ts";
import { capital, namedInk, told, type AuditContext, type Judged } from "./context.ts";
import type { Finding, Mend } from "./finding.ts";
import { THRESHOLDS } from "./thresholds.ts";

export function floats(context: AuditContext): Finding[] {
  return context.charts.flatMap((judged) => {
    const knitted = asKnitted(judged.now.cloth);
    const limit = comfortableFloat(judged.now.cloth.gauge.stitches);
    return Array.from({ length: knitted.height }, (_, index) => index + 1).flatMap((row) => {
      const [longest] = floatsInRow(knitted, row, judged.chart.worked ?? "round").sort((a, b) => b.length - a.length);
      return longest && longest.length > limit ? [floatFinding(context, judged, row, longest, limit)] : [];
    });
  });
}

/** Stitches that a strand may pass uncaught: floor(2.5 cm × gauge / 10 cm). At 28 stitches: 7. */
export const comfortableFloat = (stitchesPer10cm: number): number =>
  Math.floor((THRESHOLDS.floatCm * stitchesPer10cm) / 10 + 1e-9);

/** The strands as they are carried: stitches by yarn, without what is laid on afterwards. The index is an ink of that yarn. */
function asKnitted(cloth: Cloth): Grid {
  const keyOf = cloth.inks.map(({ yarn, colour }) => (yarn === null ? `colour ${colour}` : `yarn ${yarn}`));
  const strand = keyOf.map((key) => keyOf.indexOf(key));
  return {
    width: cloth.grid.width,
    height: cloth.grid.height,
    ids: keyOf,
    cells: cloth.knitted.map((ink) => (ink === NO_STITCH ? NO_STITCH : strand[ink]!)),
  };
}

function floatFinding(
  context: AuditContext,
  { chart, section, now }: Judged,
  row: number,
  float: { colour: number; length: number; fromColumn: number },
  limit: number,
): Finding {
  const { cloth } = now;
  const ink = cloth.inks[float.colour]!;
  const name = namedInk(context, ink.colour, ink.yarn);
  const centimetres = (float.length * stitchSizeMm(cloth.gauge).widthMm) / 10;
  const band = now.bands.find(({ band: { rows } }) => row >= rows[0] && row <= rows[1])?.band.id;
  const advice =
    float.length <= 2 * limit
      ? "Catch it once or twice on the way, or lay those stitches on in duplicate stitch."
      : "Too long to catch: ladderback, or lay those stitches on in duplicate stitch.";
  const mend = laidOn(cloth, row, float.colour);
  return {
    id: `floats/${section ? `${chart.id}@${section}` : chart.id}/${row}/${ink.colour}`,
    severity: float.length <= 2 * limit ? "doubt" : "fault",
    where: {
      chart: chart.id,
      rows: [row, row],
      ...(band ? { band } : {}),
      colours: [ink.colour],
      yarns: ink.yarn === null ? [] : [ink.yarn],
      ...(section ? { section } : {}),
    },
    numbers: { stitches: float.length, limit, centimetres },
    headline: `${capital(`row ${row}`)}: ${name} floats over ${float.length} stitches`,
    sentence: `The ${name} strand passes ${float.length} stitches, ${told(centimetres)} cm; at this gauge up to ${limit} lie well (2.5 cm, common practice). ${advice}`,
    ...(mend ? { mends: [mend] } : {}),
  };
}

/** Few stitches in the carried yarn: the row is knitted in the other and they are laid on. Only for rows of two yarns. */
function laidOn(cloth: Cloth, row: number, strand: number): Mend | null {
  const { width } = cloth.grid;
  const own = cloth.inks[strand]!;
  const cells: [number, number][] = [];
  const others = new Set<string | null>();
  for (let column = 1; column <= width; column++) {
    const index = cloth.knitted[(row - 1) * width + column - 1]!;
    if (index === NO_STITCH) continue;
    const ink = cloth.inks[index]!;
    if (ink.yarn === own.yarn && ink.colour === own.colour) cells.push([row, column]);
    else others.add(ink.yarn);
  }
  const [ground] = others;
  // Laying on more than a quarter of a row is more work than catching floats; our choice.
  if (others.size !== 1 || !ground || own.yarn === null || cells.length * 4 > width) return null;
  const at = { chart: cloth.chart.id, rows: [row, row] as [number, number] };
  return {
    colour: own.colour,
    from: own.yarn,
    to: ground,
    at,
    overStitched: [{ at, cells, yarn: own.yarn }],
    sentence: `Knit row ${row} plain and lay its ${cells.length} stitches a repeat on in duplicate stitch`,
    numbers: { stitches: cells.length },
  };
}
