/** The two-sided ladder: the pattern's colours at their lightness, her yarns at theirs, a link for every assignment. */
import { lazy, Suspense, useLayoutEffect, useMemo, useRef, useState, type CSSProperties, type ReactNode } from "react";
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import { labOfShade } from "../../colour/shade.ts";
import type { Project } from "../../document/project.ts";
import { labOfYarn } from "../../yarn/yarn.ts";
import { useBench } from "../shell/bench.ts";
import { Help } from "../ui/Help.tsx";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { useSeenProject } from "../ui/seenProject.ts";
import type { LadderRung } from "../worker/api.ts";
import { crossedPairs, lightnessSpan, orderSentence, nameLines, spread } from "./layout.ts";
import { RailsDrawing } from "./RailsDrawing.tsx";
import { useCarry } from "./useCarry.ts";

// The list with all its keyboard manners is a third of the page's script: it comes when a hand or the keys come near the ladder.
const loadPicker = () => import("./YarnPicker.tsx");
const YarnPicker = lazy(() => loadPicker().then((module) => ({ default: module.YarnPicker })));

export interface YarnDot {
  readonly id: string;
  readonly name: string;
  readonly L: number;
  readonly lab: Lab;
  readonly hex: string;
}

/** CSS pixels: between neighbours on a rail, and from the edge to where the links begin. */
const NODE_GAP = 31;
const LEFT = 84;

export function yarnDots(project: Project): YarnDot[] {
  return project.yarns.map((yarn) => {
    const lab = labOfYarn(yarn);
    return { id: yarn.id, name: yarn.name, L: lab[0], lab, hex: hexFromLab(lab) };
  });
}

export function LadderPanel(): ReactNode {
  const { colourway, check } = useBench();
  const project = useSeenProject();
  const lines = check?.ladder ?? [];
  return (
    <section className="panel ladder" data-part="ladder" aria-labelledby="ladder-title">
      <div className="titled">
        <h2 id="ladder-title">Light to dark</h2>
        {lines.length > 0 && <NumberHelp of={["lightness", "valueClass", "deltaL"]} />}
      </div>
      {!project || !colourway ? (
        <p className="empty">The ladder stands as soon as there is a colourway.</p>
      ) : lines.length === 0 ? (
        <p className="empty" role="status">
          Working out…
        </p>
      ) : (
        <Rails project={project} lines={lines} />
      )}
    </section>
  );
}

interface Choosing {
  readonly line: LadderRung;
  readonly lines: readonly LadderRung[];
  readonly was: Lab;
}

const patternLab = ({ pattern }: Project, colour: string): Lab =>
  labOfShade(pattern.colours.find(({ id }) => id === colour)!.shade);

interface RailsProps {
  /** As the chosen eye sees it. */
  readonly project: Project;
  readonly lines: readonly LadderRung[];
}

function Rails({ project, lines }: RailsProps): ReactNode {
  const { commit, colourway, say, glimpse, check } = useBench();
  const frame = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 340, height: 560 });
  // The list is of the ladder as it was when she opened it, though the rails follow her eye.
  const [choosing, setChoosing] = useState<Choosing | null>(null);
  const buttons = useRef(new Map<string, HTMLButtonElement>());
  useLayoutEffect(() => {
    const element = frame.current!;
    // A part that is out of sight has no size; on paper it is drawn with the last one that it had.
    const measure = () =>
      element.clientWidth > 0 && setSize({ width: element.clientWidth, height: element.clientHeight });
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    measure();
    return () => observer.disconnect();
  }, []);

  const expectPicker = () => void loadPicker().catch(() => undefined);

  const yarns = useMemo(() => yarnDots(project), [project]);
  const used = useMemo(() => new Set(lines.flatMap(({ yarn }) => (yarn ? [yarn] : []))), [lines]);
  const assigned = yarns.filter(({ id }) => used.has(id));
  const others = yarns.filter(({ id }) => !used.has(id));
  const pairs = crossedPairs(lines);

  const least = Math.max(lines.length, assigned.length) * NODE_GAP + 24;
  const height = Math.max(size.height, least);
  const span = lightnessSpan([...lines.map(({ was }) => was.L), ...yarns.map(({ L }) => L)]);
  const y = (L: number) => 14 + ((span.top - L) / (span.top - span.bottom)) * (height - 28);
  const leftY = spread(
    lines.map(({ was }) => y(was.L)),
    NODE_GAP,
    16,
    height - 16,
  );
  const rightY = spread(
    assigned.map(({ L }) => y(L)),
    NODE_GAP,
    16,
    height - 16,
  );
  const strip = size.width - 16;
  const right = Math.round(size.width * 0.48);

  const assign = (line: LadderRung, yarn: string) => {
    if (!colourway) return;
    const { colour } = line;
    if (line.yarn === yarn) return say(`${colour} has that yarn already.`);
    const name = yarns.find(({ id }) => id === yarn)?.name ?? yarn;
    commit([{ kind: "assignYarn", colourway: colourway.id, colour, yarn }], `${name} for ${colour}`);
  };

  const nodes = [
    ...lines.map(({ colour }, i) => ({ side: "colour" as const, id: colour, x: LEFT - 24, y: leftY[i]! })),
    ...assigned.map(({ id }, i) => ({ side: "yarn" as const, id, x: right + 16, y: rightY[i]! })),
    ...others.map(({ id, L }) => ({ side: "yarn" as const, id, x: strip + 8, y: y(L) })),
  ];
  const { carry, begin } = useCarry(frame, nodes, (colour, yarn) => {
    const line = lines.find((one) => one.colour === colour);
    if (line) assign(line, yarn);
  });
  const carriedYarn = carry?.to?.side === "yarn" ? carry.to.id : carry?.from.side === "yarn" ? carry.from.id : null;
  const carriedName = yarns.find(({ id }) => id === carriedYarn)?.name;

  return (
    <>
      <div className="rail-heads" aria-hidden="true">
        <span style={{ width: right }}>the pattern</span>
        <span>your yarns</span>
        {others.length > 0 && <span className="rail-others">others</span>}
      </div>
      <div
        className="rails"
        ref={frame}
        style={{ minHeight: Math.max(300, least), "--width": size.width, "--height": height } as CSSProperties}
        onPointerEnter={expectPicker}
        onFocus={expectPicker}
      >
        <RailsDrawing
          lines={lines}
          assigned={assigned}
          others={others}
          leftY={leftY}
          rightY={rightY}
          y={y}
          span={span}
          size={{ width: size.width, height }}
          left={LEFT}
          right={right}
          strip={strip}
          carry={carry}
          carriedYarn={carriedYarn}
          onTake={(event, yarn) => begin(event, { side: "yarn", id: yarn })}
        />
        {lines.map((line, i) => (
          <button
            key={line.colour}
            ref={(element) => {
              if (element) buttons.current.set(line.colour, element);
              else buttons.current.delete(line.colour);
            }}
            type="button"
            className="rung"
            data-target={carry?.to?.side === "colour" && carry.to.id === line.colour}
            style={{ top: leftY[i]! - 14 }}
            aria-haspopup="dialog"
            aria-expanded={choosing?.line.colour === line.colour}
            aria-label={rungWords(line)}
            title={`${line.name}: choose a yarn`}
            onPointerDown={(event) => begin(event, { side: "colour", id: line.colour })}
            onClick={() => setChoosing({ line, lines, was: patternLab(project, line.colour) })}
          >
            <span className="rung-letter">{line.colour}</span>
            <span className="swatch" style={{ background: line.was.hex }} />
          </button>
        ))}
        {assigned.map(({ id, name, hex }, i) => (
          <div
            key={id}
            className="held"
            aria-hidden="true"
            data-target={carry?.to?.id === id}
            style={{ top: rightY[i]! - 14, left: right, width: strip - right - 10 }}
            title={name}
            onPointerDown={(event) => begin(event, { side: "yarn", id })}
          >
            <span className="swatch round" style={{ background: hex }} />
            <span className="held-name">
              {nameLines(name).map((line) => (
                <span key={line}>{line}</span>
              ))}
            </span>
          </div>
        ))}
        {carry && carriedName && (
          <p
            className="carry-name"
            aria-hidden="true"
            style={{ top: Math.max(0, carry.y - 40), left: Math.min(carry.x + 8, size.width - 150) }}
          >
            {carriedName}
            {carry.to?.side === "colour"
              ? ` for ${carry.to.id}`
              : carry.from.side === "colour"
                ? ` for ${carry.from.id}`
                : ""}
          </p>
        )}
      </div>
      <p className="crossings">
        {orderSentence({
          pairs,
          flipped: check?.findings.some(({ id }) => id === "valueOrder/flipped") ?? false,
          was: lines.map(({ was }) => was.L),
          now: lines.map(({ L }) => L),
        })}
      </p>
      <LadderHelp />
      {project.yarns.length === 0 && (
        <p className="empty">
          There are no yarns here yet, so the fabric shows the pattern’s own colours. Open a project file that has some.
        </p>
      )}
      <Suspense>
        {choosing !== null && (
          <YarnPicker
            line={choosing.line}
            lines={choosing.lines}
            yarns={yarns}
            was={choosing.was}
            anchor={buttons.current.get(choosing.line.colour) ?? null}
            onTry={(yarn) => {
              const { colour } = choosing.line;
              glimpse(yarn && colourway ? [{ kind: "assignYarn", colourway: colourway.id, colour, yarn }] : null);
            }}
            onChoose={(yarn) => assign(choosing.line, yarn)}
            onClose={() => {
              glimpse(null);
              setChoosing(null);
            }}
          />
        )}
      </Suspense>
    </>
  );
}

function LadderHelp(): ReactNode {
  return (
    <Help summary="How to read the ladder">
      <p>
        Height is lightness, L*: 100 is white, 0 is black. Each letter is a chart colour; its line leads to the yarn
        that has it.
      </p>
      <p>
        A heavy line crosses another: the two have changed places from light to dark, the commonest way for a pattern to
        sink. A few steps of L* do no harm.
      </p>
      <p>
        Press a letter to see all your yarns for it, or carry a yarn to a letter. The strokes on the far right are yarns
        that no letter has.
      </p>
    </Help>
  );
}

function rungWords(line: LadderRung): string {
  const was = `${line.colour}, ${line.name}, ${line.was.class} in the pattern, L ${Math.round(line.was.L)}`;
  const now = line.yarn
    ? `Knitted in ${line.yarnName ?? line.yarn}, ${line.class}, L ${Math.round(line.L)}`
    : "No yarn yet";
  const crossed = line.crosses.length > 0 ? ` Has changed places with ${line.crosses.join(", ")}.` : "";
  return `${was}. ${now}.${crossed}`;
}
