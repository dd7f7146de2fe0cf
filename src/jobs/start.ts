/** A project from what she has: a chart that was read, and her yarns; a first colourway by value. */
import type { Outcome, Problem } from "../base/problem.ts";
import { countStitches } from "../chart/counts.ts";
import { gridOf } from "../chart/chart.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { labOfShade, type Shade } from "../colour/shade.ts";
import { plainName } from "../colour/names.ts";
import { PROJECT_FORMAT, PROJECT_VERSION, type Project } from "../document/project.ts";
import { judgeProject } from "../document/judgeProject.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { PatternColour } from "../fabric/pattern.ts";
import type { Gauge } from "../garment/gauge.ts";
import { assignYarns } from "../recolour/assign.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";

export interface NewProject {
  readonly name: string;
  readonly chart: {
    readonly name?: string;
    readonly rows: readonly string[];
    readonly colours: Readonly<Record<string, Shade & { name?: string }>>;
  };
  readonly yarns: readonly Yarn[];
  readonly gauge?: Gauge | undefined;
}

/** Stranded work in 4-ply. Common practice, no source; told to her as an assumption. */
export const ASSUMED_GAUGE: Gauge = { stitches: 28, rows: 30 };

export function newProject({ name, chart, yarns, gauge }: NewProject): Outcome<Project> {
  const grid = gridOf({ rows: [...chart.rows] });
  const stitches = countStitches(grid);
  const most = grid.ids[stitches.indexOf(Math.max(...stitches))];
  const problems: Problem[] = gauge
    ? []
    : [
        {
          where: "gauge",
          expected: "stitches and rows per 10 cm",
          got: `none, so ${ASSUMED_GAUGE.stitches} × ${ASSUMED_GAUGE.rows} is assumed`,
          severity: "note",
        },
      ];
  const colours = namedColours(grid.ids, chart.colours, most);
  const colourway = firstColourway(colours, yarns);
  const project: Project = {
    format: PROJECT_FORMAT,
    version: PROJECT_VERSION,
    name,
    pattern: {
      name,
      gauge: gauge ?? ASSUMED_GAUGE,
      colours,
      charts: [{ id: "c1", name: chart.name ?? name, worked: "round", rows: [...chart.rows] }],
    },
    yarns: [...yarns],
    colourways: [colourway],
  };
  const judged = judgeProject(JSON.parse(JSON.stringify(project)));
  return { value: judged.value, problems: [...problems, ...judged.problems] };
}

function namedColours(
  ids: readonly string[],
  shades: NewProject["chart"]["colours"],
  main: string | undefined,
): PatternColour[] {
  const taken = new Map<string, number>();
  return ids.toSorted().map((id) => {
    const stated = shades[id] ?? { hex: "#808080" };
    const shade = onlyShade(stated);
    const plain = stated.name ?? plainName(labOfShade(shade));
    const times = (taken.get(plain) ?? 0) + 1;
    taken.set(plain, times);
    return {
      id,
      name: times > 1 ? `${plain} ${times}` : plain,
      role: id === main ? ("main" as const) : ("contrast" as const),
      shade,
    };
  });
}

/** A shade without what a reader may say beside it; a hex code where there is one, as she would write it. */
const onlyShade = ({ hex, lab, uncertainty }: Shade): Shade => ({
  ...(hex === undefined ? { lab: lab! } : { hex }),
  ...(uncertainty === undefined ? {} : { uncertainty }),
});

/** The nearest place on the ladder counts most, the hue a little. Our choice. */
function firstColourway(colours: readonly PatternColour[], yarns: readonly Yarn[]): Colourway {
  const first = { id: "w1", name: "first try", from: null, note: "Each colour in the yarn nearest in value." };
  if (yarns.length === 0) return { ...first, note: "", yarns: {} };
  const costs = colours.map(({ shade }) => {
    const wanted = labOfShade(shade);
    return yarns.map((yarn) => {
      const lab = labOfYarn(yarn);
      return Math.abs(lab[0] - wanted[0]) + 0.25 * deltaE2000(lab, wanted);
    });
  });
  const { assignment } = assignYarns({ costs, distinct: yarns.length >= colours.length });
  if (!assignment) return { ...first, note: "", yarns: {} };
  return { ...first, yarns: Object.fromEntries(colours.map(({ id }, index) => [id, yarns[assignment[index]!]!.id])) };
}
