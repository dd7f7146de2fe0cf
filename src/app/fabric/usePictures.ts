/** Asks for the pictures of the cloth that are in view, and says which to draw meanwhile. */
import { useEffect, useMemo, useRef, useState } from "react";
import type { Chart } from "../../chart/chart.ts";
import type { Project } from "../../document/project.ts";
import type { Ahead } from "../worker/ahead.ts";
import { sameLook, useRested, type SmallPicture, type SmallQuestion } from "../shell/following.ts";
import { deficiencyOf, DISTANCES, type Look } from "../shell/view.ts";
import { brokenSentence } from "../worker/answers.ts";
import { pictureJobs, smallPictureJobs } from "../worker/client.ts";
import { serialOf } from "../worker/serial.ts";
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
/** Pixels of a picture as seen that is there at every stand while the hand moves, all panes together. */
const SMALL_PIXELS = 300_000;

export interface Shown {
  readonly project: Project;
  readonly colourway: string;
}

export interface PictureLook extends Look {
  readonly grey: boolean;
  readonly seen: boolean;
}

interface PictureSet {
  readonly key: string;
  readonly look: PictureLook;
  readonly seenFrom: number | null;
  readonly repeats: number;
  readonly blocks: readonly (readonly [number, number])[];
  readonly request: (rows: readonly [number, number]) => TileRequest;
  /** What is shown until the picture as seen is there; null as it lies. `enough`: that is all that can be seen on this screen. */
  readonly small: { readonly question: SmallQuestion; readonly enough: boolean } | null;
}

const keyOf = (set: string, rows: readonly [number, number]): string => `${set}|${rows[0]}-${rows[1]}`;

function setOf(
  shown: Shown,
  chart: Chart,
  look: PictureLook,
  pane: Pane,
  { stitch, panes }: { readonly stitch: number; readonly panes: number },
): PictureSet {
  const { seen, distance, light, eye, severity } = look;
  const columns = chart.rows[0]!.length;
  const height = chart.rows.length;
  const { project } = shown;
  const { gauge } = project.pattern;
  // The eye's blur does not go round the edge of a picture: what is seen from afar is asked for as wide as it is shown.
  const repeats = Math.max(1, Math.min(Math.ceil(pane.repeats - 0.01), Math.floor(STITCHES_ACROSS / columns)));
  const stitchOf = (pixels: number) => Math.sqrt(pixels / (columns * repeats * height * (gauge.stitches / gauge.rows)));
  const most = seen ? Math.min(SEEN_STITCH_MOST, stitchOf(SEEN_PIXELS)) : WIDEST / (columns * repeats);
  const round = (pixels: number) => Math.max(0.25, Math.min(96, Math.round(pixels * 100) / 100));
  const pixelsPerStitch = round(Math.min(stitch, most));
  const options = {
    colourway: shown.colourway,
    chart: chart.id,
    ...deficiencyOf(look),
    ...(look.grey && { colours: "grey" as const }),
    repeats,
  };
  const full = { ...options, pixelsPerStitch, ...(seen && { distance, light }) };
  const key = `${serialOf(project)}|${JSON.stringify(full)}`;
  const blocks: [number, number][] = [];
  const step = seen ? height : BLOCK;
  for (let row = 1; row <= height; row += step) blocks.push([row, Math.min(height, row + step - 1)]);
  const small = {
    ...options,
    light,
    pixelsPerStitch: round(Math.min(pixelsPerStitch, stitchOf(SMALL_PIXELS / panes))),
  };
  return {
    key,
    look,
    seenFrom: seen ? distance : null,
    repeats,
    blocks,
    request: (rows) => ({
      key: keyOf(key, rows),
      ask: () => pictureJobs().fabric(project, seen ? full : { ...full, rows: [rows[0], rows[1]] }),
    }),
    small: seen
      ? {
          question: {
            key: `${serialOf(project)}|${JSON.stringify(small)}`,
            ...{ light, eye, severity },
            ask: async (from) => {
              const { width, height, rgba } = await smallPictureJobs().fabric(project, { ...small, distance: from });
              return {
                bitmap: await createImageBitmap(new ImageData(rgba, width, height)),
                pixels: width * height,
              };
            },
          },
          enough: small.pixelsPerStitch === pixelsPerStitch,
        }
      : null,
  };
}

/** `shown` in the order of the panes. Calls `onPicture` whenever there is something new to draw. */
export function usePictures(input: {
  readonly shown: readonly Shown[];
  readonly chart: Chart;
  /** What is shown, and where the hand is, which may be ahead of it. */
  readonly look: PictureLook;
  readonly hand: PictureLook;
  readonly geometry: FabricGeometry | null;
  readonly density: number;
  /** Rows in view. */
  readonly inView: readonly [number, number];
  readonly smalls: Ahead<SmallQuestion, SmallPicture>;
  readonly onPicture: () => void;
}): {
  readonly pictures: (pane: number) => ScenePane["pictures"];
  /** "sharper": what is shown is right, and a finer picture of it is on its way. */
  readonly waiting: "no" | "sharper" | "yes";
  readonly failed: string | null;
} {
  const { shown, chart, geometry, density, inView, onPicture, smalls, look, hand } = input;
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

  const setsOf = (from: PictureLook): PictureSet[] =>
    geometry
      ? geometry.panes.map((pane, i) =>
          setOf(shown[i] ?? shown[0]!, chart, from, pane, {
            stitch: geometry.stitch * density,
            panes: geometry.panes.length,
          }),
        )
      : [];
  const sets = useMemo(() => setsOf(look), [shown, chart, look, geometry, density]);
  // A new distance is a new stand before the same pictures.
  const questions = useMemo(
    () => setsOf(hand).flatMap(({ small }) => (small ? [small.question] : [])),
    [shown, chart, hand.grey, hand.seen, hand.light, hand.eye, hand.severity, geometry, density],
  );
  const rested = useRested(hand);
  const rests = rested === hand;
  useEffect(
    () => smalls.want(questions, hand.distance, rests ? "everywhere" : "here"),
    [smalls, questions, hand.distance, rests],
  );
  // Nobody waits for pictures of a fabric that is gone.
  useEffect(() => () => smalls.want([], DISTANCES[0]!, "here"), [smalls]);
  // What was last drawn whole in each pane stays under what is being worked out.
  const before = useRef<PictureSet[]>([]);

  const inSight = ([from, to]: readonly [number, number]) => to >= inView[0] && from <= inView[1];
  const tilesOf = (set: PictureSet) =>
    set.blocks.flatMap((rows) => {
      const picture = store.current?.find(keyOf(set.key, rows));
      return picture ? [{ rows, picture, repeats: set.repeats, seenFrom: set.seenFrom }] : [];
    });
  const isSharp = (set: PictureSet): boolean =>
    (set.small?.enough && smallOf(set) !== undefined) ||
    set.blocks.filter(inSight).every((rows) => store.current?.find(keyOf(set.key, rows)));
  const smallOf = ({ small, seenFrom }: PictureSet) =>
    small && seenFrom !== null ? smalls.find(small.question, seenFrom) : undefined;
  const layersOf = (set: PictureSet): ScenePane["pictures"] => {
    const tiles = tilesOf(set);
    const small = tiles.length === 0 && smallOf(set);
    return small
      ? [{ rows: [1, chart.rows.length], picture: small.bitmap, repeats: set.repeats, seenFrom: set.seenFrom }]
      : tiles;
  };
  const isThere = (set: PictureSet): boolean => isSharp(set) || Boolean(smallOf(set));

  useEffect(() => {
    const middle = (inView[0] + inView[1]) / 2;
    const distance = ([from, to]: readonly [number, number]) => Math.abs((from + to) / 2 - middle);
    const near = ([from, to]: readonly [number, number]) => to >= inView[0] - BLOCK && from <= inView[1] + BLOCK;
    store.current?.want(
      sets
        // While the distance is being moved the finer picture would only chase it, and the small one comes first.
        .filter((set) => !set.small || (rests && !set.small.enough && smallOf(set)))
        .flatMap((set) => set.blocks.filter(near).map((rows) => ({ set, rows })))
        .sort((a, b) => distance(a.rows) - distance(b.rows))
        .map(({ set, rows }) => set.request(rows)),
    );
  });
  const there = sets.every(isThere);
  useEffect(() => {
    sets.forEach((set, i) => {
      if (isThere(set)) before.current[i] = set;
    });
  });

  const broken = smalls.failure();
  return {
    pictures: (pane) => {
      const set = sets[pane];
      if (!set) return [];
      const old = before.current[pane] ?? before.current[0];
      if (isThere(set) || !old || old.key === set.key) return layersOf(set);
      // Of another distance it would be beside words that are not its own: where the fabric was out of sight the hand moves alone.
      const fits = set.seenFrom === null || old.seenFrom === null || sameLook(set.look, old.look);
      return fits ? [...layersOf(old), ...layersOf(set)] : layersOf(set);
    },
    waiting: !there || (hand.seen && look !== hand) ? "yes" : sets.every(isSharp) ? "no" : "sharper",
    failed: failed ?? (broken === undefined ? null : brokenSentence(broken)),
  };
}
