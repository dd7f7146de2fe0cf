/** Asks for the pictures of the cloth that are in view, and says which to draw meanwhile. */
import { useEffect, useMemo, useRef, useState } from "react";
import type { Chart } from "../../chart/chart.ts";
import type { Project } from "../../document/project.ts";
import { deficiencyOf, type View } from "../shell/view.ts";
import { pictureJobs } from "../worker/client.ts";
import { brokenSentence } from "../worker/answers.ts";
import type { FabricGeometry, Pane } from "./geometry.ts";
import type { ScenePane } from "./paint.ts";
import { createTileStore, type TileRequest, type TileStore } from "./tileStore.ts";

/** Rows in one picture: small enough to be there within a frame or two, large enough that few are asked for. */
const BLOCK = 24;
/** Pixels across one picture at most, and stitches side by side before the same picture is laid again. Our choice. */
const WIDEST = 6000;
const STITCHES_ACROSS = 240;
/** Pixels of a picture as seen from afar, which is worked out for the whole chart at once. */
const SEEN_PIXELS = 1_600_000;
const SEEN_STITCH_MOST = 16;
/** The hand must rest this long before the seen picture is worked out anew. */
const REST_MS = 250;

const serials = new WeakMap<Project, number>();
let lastSerial = 0;
function serialOf(project: Project): number {
  let serial = serials.get(project);
  if (serial === undefined) serials.set(project, (serial = ++lastSerial));
  return serial;
}

export interface Shown {
  readonly project: Project;
  readonly colourway: string;
}

export type PictureLook = Pick<View, "grey" | "seen" | "distance" | "light" | "eye" | "severity">;

interface PictureSet {
  readonly seen: boolean;
  readonly key: string;
  readonly repeats: number;
  readonly blocks: readonly (readonly [number, number])[];
  readonly request: (rows: readonly [number, number]) => TileRequest;
}

const keyOf = (set: string, rows: readonly [number, number]): string => `${set}|${rows[0]}-${rows[1]}`;

function setOf(shown: Shown, chart: Chart, look: PictureLook, pane: Pane, stitch: number): PictureSet {
  const columns = chart.rows[0]!.length;
  const height = chart.rows.length;
  const { gauge } = shown.project.pattern;
  // The eye's blur does not go round the edge of a picture: what is seen from afar is asked for as wide as it is shown.
  const repeats = Math.max(1, Math.min(Math.ceil(pane.repeats - 0.01), Math.floor(STITCHES_ACROSS / columns)));
  const most = look.seen
    ? Math.min(SEEN_STITCH_MOST, Math.sqrt(SEEN_PIXELS / (columns * repeats * height * (gauge.stitches / gauge.rows))))
    : WIDEST / (columns * repeats);
  const pixelsPerStitch = Math.max(0.25, Math.min(96, Math.round(Math.min(stitch, most) * 100) / 100));
  const options = {
    colourway: shown.colourway,
    chart: chart.id,
    ...deficiencyOf(look),
    ...(look.grey && { colours: "grey" as const }),
    pixelsPerStitch,
    repeats,
    ...(look.seen && { distance: look.distance, light: look.light }),
  };
  const key = `${serialOf(shown.project)}|${JSON.stringify(options)}`;
  const blocks: [number, number][] = [];
  const step = look.seen ? height : BLOCK;
  for (let row = 1; row <= height; row += step) blocks.push([row, Math.min(height, row + step - 1)]);
  return {
    seen: look.seen,
    key,
    repeats,
    blocks,
    request: (rows) => ({
      key: keyOf(key, rows),
      ask: () => pictureJobs().fabric(shown.project, look.seen ? options : { ...options, rows: [rows[0], rows[1]] }),
    }),
  };
}

/** `shown` in the order of the panes. Calls `onPicture` whenever there is something new to draw. */
export function usePictures(input: {
  readonly shown: readonly Shown[];
  readonly chart: Chart;
  readonly look: PictureLook;
  readonly geometry: FabricGeometry | null;
  readonly density: number;
  /** Rows in view. */
  readonly inView: readonly [number, number];
  readonly onPicture: () => void;
}): {
  readonly pictures: (pane: number) => ScenePane["pictures"];
  readonly waiting: boolean;
  readonly failed: string | null;
} {
  const { shown, chart, geometry, density, inView, onPicture } = input;
  const [failed, setFailed] = useState<string | null>(null);
  const [, setArrived] = useState(0);
  const store = useRef<TileStore | null>(null);
  const redraw = useRef(onPicture);
  redraw.current = onPicture;
  useEffect(() => {
    store.current = createTileStore(
      () => {
        setArrived((count) => count + 1);
        redraw.current();
      },
      (reason) => setFailed(brokenSentence(reason)),
    );
    setArrived((count) => count + 1);
    return () => store.current?.close();
  }, []);

  const look = useRested(input.look);
  const sets = useMemo(
    () =>
      geometry
        ? geometry.panes.map((pane, i) => setOf(shown[i] ?? shown[0]!, chart, look, pane, geometry.stitch * density))
        : [],
    [shown, chart, look, geometry, density],
  );
  // What was last drawn whole in each pane stays under what is being worked out.
  const before = useRef<PictureSet[]>([]);

  const wantedBlocks = (set: PictureSet) => set.blocks.filter(([from, to]) => to >= inView[0] && from <= inView[1]);
  const here = (set: PictureSet) => wantedBlocks(set).every((rows) => store.current?.find(keyOf(set.key, rows)));
  useEffect(() => {
    const middle = (inView[0] + inView[1]) / 2;
    const distance = ([from, to]: readonly [number, number]) => Math.abs((from + to) / 2 - middle);
    const near = ([from, to]: readonly [number, number]) => to >= inView[0] - BLOCK && from <= inView[1] + BLOCK;
    store.current?.want(
      sets
        .flatMap((set) => set.blocks.filter(near).map((rows) => ({ set, rows })))
        .sort((a, b) => distance(a.rows) - distance(b.rows))
        .map(({ set, rows }) => set.request(rows)),
    );
  });
  const complete = sets.map(here);
  useEffect(() => {
    sets.forEach((set, i) => {
      if (complete[i]) before.current[i] = set;
    });
  });

  return {
    pictures: (pane) => {
      const set = sets[pane];
      if (!set) return [];
      const old = before.current[pane] ?? before.current[0];
      const layers = complete[pane] || !old || old.key === set.key ? [set] : [old, set];
      return layers.flatMap((layer) =>
        layer.blocks.flatMap((rows) => {
          const picture = store.current?.find(keyOf(layer.key, rows));
          return picture ? [{ rows, picture, repeats: layer.repeats }] : [];
        }),
      );
    },
    waiting: complete.some((there) => !there) || look !== input.look,
    failed,
  };
}

/** While the distance is being moved the seen picture would only chase it. */
function useRested<L extends Pick<View, "seen">>(look: L): L {
  const [rested, setRested] = useState(look);
  useEffect(() => {
    if (!look.seen || !rested.seen) {
      setRested(look);
      return;
    }
    const timer = setTimeout(() => setRested(look), REST_MS);
    return () => clearTimeout(timer);
  }, [look, rested.seen]);
  return look.seen && rested.seen ? rested : look;
}
