/** Two strands or more twisted together, in colour and in grey, and the pair knitted, at hand and from where she looks. */
import { useEffect, useMemo, useRef, useState, type ReactNode } from "react";
import { deltaE2000 } from "../../colour/difference.ts";
import { PROJECT_FORMAT, PROJECT_VERSION, type ClothMeasure, type Project } from "../../document/project.ts";
import { visibility } from "../../fabric/visibility.ts";
import type { Gauge } from "../../garment/gauge.ts";
import { partsOfYarn } from "../../yarn/flecks.ts";
import { useBench } from "../shell/bench.ts";
import { metresWords, wholeWords } from "../shell/words.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { pictureJobs } from "../worker/client.ts";
import type { StashLine } from "./lines.ts";
import { yarnPaint } from "./paintBall.ts";
import { StandChoice } from "./StandChoice.tsx";
import { twisted } from "./twist.ts";
import { YarnCautions } from "./YarnCautions.tsx";
import { lightnessApartWords } from "./yarnWords.ts";

/** More strands would hide each other. Our choice. */
const STRANDS = 4;
const USUAL_GAUGE: Gauge = { stitches: 28, rows: 30 };

interface TwistPanelProps {
  /** In the order in which they were chosen. */
  readonly chosen: readonly StashLine[];
  readonly onChoose: (id: string) => void;
}

export function TwistPanel({ chosen, onChoose }: TwistPanelProps): ReactNode {
  const strands = chosen.slice(0, STRANDS);
  const yarns = useMemo(() => strands.map(({ yarn }) => yarn), [chosen]);
  return (
    <section className="side-part" aria-labelledby="twist-title">
      <div className="titled">
        <h3 id="twist-title" tabIndex={-1}>
          Twisted together
        </h3>
        <NumberHelp of={["strand", "V", "words", "near"]} about="what twisting tells" />
      </div>
      <p className="fact-quiet">The ball lies, the strand tells: two that melt here will melt in the cloth.</p>
      {strands.length > 0 && (
        <ul className="strand-list" aria-label="Strands">
          {strands.map(({ id, yarn, hex }) => (
            <li key={id}>
              <span className="swatch round" style={{ background: yarnPaint(yarn, hex) }} /> {yarn.name}
              <button type="button" className="button quiet" onClick={() => onChoose(id)}>
                leave out<span className="unseen"> {yarn.name}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {strands.length < 2 ? (
        <p className="empty">
          Choose {strands.length === 0 ? "two yarns or more" : "another yarn"} on the shelf: by its box in the list, by
          Space under the arrow keys, or by Choose beside a yarn.
        </p>
      ) : (
        <>
          {chosen.length > STRANDS && <p>The first four of {chosen.length}.</p>}
          <Twist strands={strands} colours="full" />
          <Twist strands={strands} colours="grey" />
          <StandChoice />
          <Pairs strands={strands} />
          <YarnCautions yarns={yarns} />
        </>
      )}
    </section>
  );
}

/** CSS pixels of a strand and of a turn. */
const THICK = 22;
const TURN = 76;
const HEIGHT = 62;

interface TwistProps {
  readonly strands: readonly StashLine[];
  readonly colours: "full" | "grey";
}

function Twist({ strands, colours }: TwistProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const element = canvas.current!;
    // Twice as fine as it is shown, so that the strands have smooth edges.
    const density = 2;
    const width = Math.max(1, Math.round(element.clientWidth * density));
    const height = Math.round(HEIGHT * density);
    element.width = width;
    element.height = height;
    const size = { width, height, turn: TURN * density, thick: THICK * density };
    const rgba = twisted(
      strands.map(({ yarn }) => partsOfYarn(yarn)),
      size,
      colours,
    );
    element.getContext("2d")?.putImageData(new ImageData(rgba, width, height), 0, 0);
  }, [strands, colours]);
  const names = strands.map(({ yarn }) => yarn.name).join(" and ");
  return (
    <canvas
      ref={canvas}
      className="twist"
      role="img"
      aria-label={`${names} twisted together${colours === "grey" ? ", in grey" : ""}`}
      style={{ height: HEIGHT }}
    />
  );
}

/** The finest pattern there is, and one twice as large. */
const MOTIFS = [
  { name: "1×1", rows: ["AB", "BA"] },
  { name: "2×2", rows: ["AABB", "AABB", "BBAA", "BBAA"] },
] as const;

/** Stitches and rows of the piece that is drawn and looked at. Our choice: what lies under a hand. */
const PIECE = { stitches: 24, rows: 16 };

function Pairs({ strands }: { readonly strands: readonly StashLine[] }): ReactNode {
  const { project, hand } = useBench();
  const cloth = project?.cloth;
  const [at, setAt] = useState(0);
  const gauge = project?.pattern.gauge ?? USUAL_GAUGE;
  const pairs = useMemo(
    () => strands.flatMap((one, first) => strands.slice(first + 1).map((other) => [one, other] as const)),
    [strands],
  );
  const shown = pairs[Math.min(at, pairs.length - 1)]!;
  return (
    <>
      <ul className="pair-list" aria-label="Each with each">
        {pairs.map(([one, other], index) => {
          const deltaL = one.L - other.L;
          const words = (
            <>
              <strong>
                {one.yarn.name} and {other.yarn.name}
              </strong>
              <span>
                {wholeWords(Math.abs(deltaL))} apart in L*: {lightnessApartWords(deltaL)}; ΔE00{" "}
                {deltaE2000(one.lab, other.lab).toFixed(1)}
              </span>
            </>
          );
          return (
            <li key={`${one.id} ${other.id}`}>
              {pairs.length === 1 ? (
                <p className="pair">{words}</p>
              ) : (
                <button
                  type="button"
                  className="pair"
                  aria-pressed={pairs[index] === shown}
                  onClick={() => setAt(index)}
                >
                  {words}
                </button>
              )}
            </li>
          );
        })}
      </ul>
      <div className="knitted-pairs">
        {MOTIFS.map(({ name, rows }) => {
          const seen = visibility({
            background: shown[0].lab,
            foreground: shown[1].lab,
            motif: rows.map((row) => row.replaceAll("A", "0").replaceAll("B", "1")),
            gauge,
            distance: hand.distance,
            light: hand.light,
            patch: { widthMm: (100 * PIECE.stitches) / gauge.stitches, heightMm: (100 * PIECE.rows) / gauge.rows },
          });
          return (
            <figure key={name}>
              <KnittedPair pair={shown} rows={rows} gauge={gauge} cloth={cloth} from={null} />
              <KnittedPair pair={shown} rows={rows} gauge={gauge} cloth={cloth} from={hand} />
              <figcaption>
                <strong>
                  {name}: {seen.shows}
                </strong>{" "}
                from {metresWords(hand.distance)}, V&nbsp;{seen.V.toFixed(1)}
              </figcaption>
            </figure>
          );
        })}
      </div>
      <p className="caution">
        Above at hand, below what is left of it from there. A model of ordinary eyesight, not tested on knitting; a
        swatch settles it.
      </p>
    </>
  );
}

interface KnittedPairProps {
  readonly pair: readonly [StashLine, StashLine];
  readonly rows: readonly string[];
  readonly gauge: Gauge;
  /** What her own knitting is like. */
  readonly cloth: ClothMeasure | undefined;
  /** null: at hand. */
  readonly from: { readonly distance: number; readonly light: number } | null;
}

/** CSS pixels of a stitch. */
const STITCH = 6.5;

function KnittedPair({ pair, rows, gauge, cloth, from }: KnittedPairProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [one, other] = pair;
  const [distance, light] = [from?.distance ?? null, from?.light ?? null];
  useEffect(() => {
    let live = true;
    const density = Math.min(2, window.devicePixelRatio || 1);
    pictureJobs()
      .fabric(
        { ...swatchOf(one, other, rows, gauge), ...(cloth && { cloth }) },
        {
          colourway: "w1",
          pixelsPerStitch: STITCH * density,
          ...(distance !== null && light !== null && { distance, light }),
        },
      )
      .then(({ width, height, rgba }) => {
        if (!live || !canvas.current) return;
        canvas.current.width = width;
        canvas.current.height = height;
        canvas.current.getContext("2d")?.putImageData(new ImageData(rgba, width, height), 0, 0);
      })
      // Without a picture its words still stand.
      .catch(() => undefined);
    return () => {
      live = false;
    };
  }, [one, other, rows, gauge, cloth, distance, light]);
  return (
    <canvas
      ref={canvas}
      className="knitted-pair"
      aria-hidden="true"
      style={{ aspectRatio: `${PIECE.stitches / gauge.stitches} / ${PIECE.rows / gauge.rows}` }}
    />
  );
}

/** A piece of cloth in two yarns, as a project that only the renderer sees. */
function swatchOf(one: StashLine, other: StashLine, rows: readonly string[], gauge: Gauge): Project {
  const wide = rows.map((row) => row.repeat(PIECE.stitches / row.length));
  const tall = Array.from({ length: PIECE.rows }, (_, at) => wide[at % wide.length]!);
  return {
    format: PROJECT_FORMAT,
    version: PROJECT_VERSION,
    name: "a pair",
    pattern: {
      name: "a pair",
      gauge,
      colours: [one, other].map(({ lab }, at) => ({ id: "AB"[at]!, name: "", shade: { lab } })),
      charts: [{ id: "c1", rows: tall }],
    },
    yarns: [
      { ...one.yarn, id: "y1" },
      { ...other.yarn, id: "y2" },
    ],
    colourways: [{ id: "w1", yarns: { A: "y1", B: "y2" } }],
  };
}
