/** How a chart is built: its bands, how they lie over one another, the strands at its back, and what one stitch would change; all of it hers to correct. */
import { useMemo, useState, type ReactNode } from "react";
import "../style/structure.css";
import { applyEdit, type Edit } from "../../document/edit.ts";
import { hexFromLab } from "../../colour/lab.ts";
import { labOfShade } from "../../colour/shade.ts";
import type { Project } from "../../document/project.ts";
import { useBench } from "../shell/bench.ts";
import { rowsWords } from "../shell/words.ts";
import { useSeenProject } from "../ui/seenProject.ts";
import { Choice } from "../wishes/controls.tsx";
import { useAnswer } from "../worker/answers.ts";
import { quickJobs } from "../worker/client.ts";
import type { BuiltChart } from "../worker/api.ts";
import { BandsPart } from "./BandsPart.tsx";
import { ChartPlane } from "./ChartPlane.tsx";
import { LyingPart } from "./LyingPart.tsx";
import { StitchPart, type ChosenStitch } from "./StitchPart.tsx";
import { StrandsPart } from "./StrandsPart.tsx";
import { bandName } from "./structureWords.ts";

/** Another chart is another view: nothing that was chosen in one has a meaning in the next. */
export const StructureView = ({ chart }: { readonly chart: string }): ReactNode => <Structure key={chart} id={chart} />;

type Part = "bands" | "lying" | "strands" | "stitch";

const PARTS = [
  ["bands", "Bands"],
  ["lying", "Over one another"],
  ["strands", "Strands"],
  ["stitch", "One stitch"],
] as const satisfies readonly (readonly [Part, string])[];

const MARKS = { bands: "axes", lying: "middles", strands: "strands", stitch: "stitch" } as const;

const FIRST_STITCH = { row: 1, column: 1 };

/** Edits that are shown and not kept. */
export interface Tried {
  readonly from: Project;
  readonly edits: readonly Edit[];
  readonly name: string;
}

function Structure({ id }: { readonly id: string }): ReactNode {
  const { project, colourway, say } = useBench();
  const seen = useSeenProject();
  const [part, setPart] = useState<Part>("bands");
  /** A row of the band that is chosen: it stays that row whatever the bands are called. */
  const [row, setRow] = useState<number | null>(null);
  /** Which of the neighbours from below: what is tried moves them and leaves their order. */
  const [over, setOver] = useState<number | null>(null);
  const [stitch, setStitch] = useState<ChosenStitch | null>(null);
  const [strandRow, setStrandRow] = useState<number | null>(null);
  const [attempt, setTried] = useState<Tried | null>(null);
  const tried = attempt && attempt.from === project ? attempt : null;
  const shown = useMemo(() => (project && tried ? tried.edits.reduce(applyEdit, project) : project), [project, tried]);
  const question = useMemo(
    () => (shown && colourway ? { project: shown, chart: id, colourway: colourway.id } : null),
    [shown, id, colourway?.id],
  );
  const { value, busy, failed } = useAnswer(askBuilt, question);
  const chart = shown?.pattern.charts.find((one) => one.id === id);
  const hexOf = useMemo(
    () =>
      new Map((seen ?? project)?.pattern.colours.map((colour) => [colour.id, hexFromLab(labOfShade(colour.shade))])),
    [(seen ?? project)?.pattern.colours],
  );
  if (!project || !shown || !chart) return null;

  // What was found of a chart of another size says nothing of this one.
  const built = value?.rows.length === chart.rows.length ? value : null;
  const nameOf = (colour: string): string =>
    shown.pattern.colours.find((one) => one.id === colour)?.name ?? `colour ${colour}`;
  const chosen = built?.bands.find(({ rows }) => row !== null && rows[0] <= row && row <= rows[1]) ?? null;
  const lying = part === "lying" && over !== null ? built?.alignments[over] : undefined;
  const pair = [lying?.above, lying?.below].flatMap((name) => built?.bands.find((band) => band.id === name) ?? []);
  const echoed = chosen?.echo && built?.bands.find((band) => band.id === chosen.echo!.of);
  const framed = part === "bands" && chosen ? [chosen, ...(echoed ? [echoed] : [])] : pair;
  const shared = { chart, built, nameOf, hexOf };
  const toRow =
    part === "bands"
      ? chosen && middleOf(chosen.rows)
      : part === "lying"
        ? (pair[0]?.rows[0] ?? null)
        : part === "strands"
          ? strandRow
          : (stitch?.row ?? null);
  return (
    <div className="structure" aria-busy={busy}>
      <ChartPlane
        chart={chart}
        gauge={shown.pattern.gauge}
        hexOf={hexOf}
        built={built}
        framed={framed}
        marks={MARKS[part]}
        stitch={part === "stitch" ? (stitch ?? FIRST_STITCH) : null}
        toRow={toRow}
        label={`${chart.name ?? "The chart"} with its bands: ${chart.rows.length} rows of ${chart.rows[0]!.length} stitches`}
        onPress={(place) => {
          if (part === "stitch") {
            const width = chart.rows[0]!.length;
            setStitch({
              row: place.row,
              column: Math.min(width, Math.max(1, place.column)),
              colour: stitch?.colour ?? null,
            });
            return;
          }
          const band = built?.bands.find(({ rows }) => within(rows, place.row));
          if (!band) return;
          setPart("bands");
          setRow(place.row);
          say(`${bandName(band)}, ${rowsWords(band.rows)}.`);
        }}
      />
      <div className="panel structure-panel">
        <Choice legend="Shown" value={part} options={PARTS} onChoose={setPart} />
        {failed && (
          <p className="empty" role="alert">
            {failed}
          </p>
        )}
        {!built ? (
          !failed && <p role="status">Looking at how it is built…</p>
        ) : part === "bands" ? (
          <BandsPart {...shared} built={built} chosen={chosen} onChoose={setRow} />
        ) : part === "lying" ? (
          <LyingPart {...shared} built={built} over={over} onChoose={setOver} tried={tried} onTry={setTried} />
        ) : part === "strands" ? (
          <StrandsPart {...shared} built={built} row={strandRow} onChoose={setStrandRow} />
        ) : (
          <StitchPart {...shared} built={built} stitch={stitch} onChoose={setStitch} />
        )}
      </div>
    </div>
  );
}

const middleOf = ([from, to]: readonly [number, number]): number => Math.floor((from + to) / 2);
const within = (rows: readonly [number, number], row: number): boolean => rows[0] <= row && row <= rows[1];

interface BuiltQuestion {
  readonly project: Project;
  readonly chart: string;
  readonly colourway: string;
}

const askBuilt = async ({ project, ...question }: BuiltQuestion): Promise<BuiltChart | null> =>
  quickJobs().builtChart(project, question);
