/** Charts put together: whose cells lie where in the one that comes of it, so that each is still seen beside its own picture. */
import type { ReadChart } from "../../intake/readChart.ts";
import { startCorrecting, type Corrected } from "../../intake/correctChart.ts";
import { drawnLooks } from "../worker/drawnLooks.ts";
import { readyChart, type ChartInHand, type ChartPart, type Joint } from "./reading.ts";

interface Size {
  readonly columns: number;
  readonly rows: number;
}

/** Where each chart's top left cell comes to lie, the topmost and leftmost at 0; null where some hang together with none. */
export function placesOf(sizes: readonly Size[], joints: readonly Joint[]): { top: number; left: number }[] | null {
  const places: ({ top: number; left: number } | undefined)[] = sizes.map(() => undefined);
  places[0] = { top: 0, left: 0 };
  for (let round = 0; round < sizes.length; round++)
    for (const joint of joints) {
      const [one, other] = [places[joint.first], places[joint.second]];
      const step = stepOf(joint, sizes);
      if (one && !other) places[joint.second] = { top: one.top + step.down, left: one.left + step.across };
      if (other && !one) places[joint.first] = { top: other.top - step.down, left: other.left - step.across };
    }
  if (places.some((place) => place === undefined)) return null;
  const known = places as { top: number; left: number }[];
  const [top, left] = [Math.min(...known.map((at) => at.top)), Math.min(...known.map((at) => at.left))];
  return known.map((at) => ({ top: at.top - top, left: at.left - left }));
}

function stepOf({ first, second, side, overlap }: Joint, sizes: readonly Size[]): { down: number; across: number } {
  const [one, other] = [sizes[first]!, sizes[second]!];
  switch (side) {
    case "above":
      return { down: -(other.rows - overlap), across: 0 };
    case "below":
      return { down: one.rows - overlap, across: 0 };
    case "left":
      return { down: 0, across: -(other.columns - overlap) };
    case "right":
      return { down: 0, across: one.columns - overlap };
  }
}

/** The chart that comes of several, with what she had put right in each of them. */
export function joinedInHand(charts: readonly ChartInHand[], joined: ReadChart, joints: readonly Joint[]): ChartInHand {
  const sizes = charts.map(({ state }) => ({ columns: state.looks.columns, rows: state.looks.rows }));
  const places = placesOf(sizes, joints) ?? sizes.map(() => ({ top: 0, left: 0 }));
  const parts = charts.flatMap(({ parts: its }, at) =>
    its.map((part): ChartPart => ({ ...part, top: part.top + places[at]!.top, left: part.left + places[at]!.left })),
  );
  const [first] = charts as [ChartInHand];
  const { grid: _grid, ...read } = joined;
  return {
    key: `joined ${charts.map(({ key }) => key).join(" + ")}`,
    name: joined.name?.trim() || first.name,
    isTaken: true,
    read,
    state: joinedState(charts, read, places),
    parts,
    isDrawn: charts.every(({ isDrawn }) => isDrawn),
    joined: { charts, joints },
  };
}

/** How its cells look is taken over from the charts they came from; their signs are numbered anew, by chart colour. */
function joinedState(
  charts: readonly ChartInHand[],
  read: ReadChart,
  places: readonly { readonly top: number; readonly left: number }[],
): Corrected {
  const begun = startCorrecting({ chart: read, looks: drawnLooks(read) });
  const { columns, rows } = begun.looks;
  const labs = begun.looks.labs.slice();
  const [spread, evenness] = [begun.looks.spread.slice(), begun.looks.evenness.slice()];
  const touched = new Set<number>();
  charts.forEach(({ state }, at) => {
    const { looks } = state;
    const { top, left } = places[at]!;
    for (let cell = 0; cell < looks.columns * looks.rows; cell++) {
      const [row, column] = [Math.floor(cell / looks.columns) + top, (cell % looks.columns) + left];
      if (row < 0 || column < 0 || row >= rows || column >= columns) continue;
      const to = row * columns + column;
      labs.set(looks.labs.subarray(cell * 3, cell * 3 + 3), to * 3);
      spread[to] = looks.spread[cell]!;
      evenness[to] = looks.evenness[cell]!;
      if (state.touched.has(cell)) touched.add(to);
    }
  });
  return { ...begun, looks: { ...begun.looks, labs, spread, evenness }, touched };
}

export const readyCharts = (charts: readonly ChartInHand[]): ReadChart[] => charts.map(readyChart);
