/** How each band lies over the one below, from the top; what would line them up, set them off or set them apart is tried before it is kept. */
import { useEffect, useRef, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { capital } from "../shell/words.ts";
import type { BuiltAlignment } from "../worker/api.ts";
import { Switch } from "../wishes/controls.tsx";
import { sayOf, takeBack } from "./bandEdits.ts";
import type { PartProps } from "./partProps.ts";
import type { Tried } from "./StructureView.tsx";
import { bandCalled, meetsWords, roundsSentences } from "./structureWords.ts";

interface LyingPartProps extends PartProps {
  /** Which of the alignments from below. */
  readonly over: number | null;
  readonly onChoose: (over: number | null) => void;
  readonly tried: Tried | null;
  readonly onTry: (tried: Tried | null) => void;
}

export function LyingPart({ chart, built, over, onChoose, tried, onTry }: LyingPartProps): ReactNode {
  const { project, commit, say } = useBench();
  const keep = useRef<HTMLButtonElement>(null);
  const came = useRef<HTMLElement | null>(null);
  useEffect(() => {
    if (tried) keep.current?.focus();
  }, [tried]);
  const bandOf = new Map(built.bands.map((band) => [band.id, band]));
  const drop = (): void => {
    onTry(null);
    came.current?.focus();
  };
  if (!project) return null;
  return (
    <>
      {tried && (
        <div className="structure-tried" role="group" aria-label="A change that is tried">
          <p>{tried.name}</p>
          <button
            ref={keep}
            type="button"
            className="button strong"
            onClick={() => {
              if (!commit(tried.edits, tried.name)) return;
              onTry(null);
              requestAnimationFrame(() =>
                document.querySelector<HTMLElement>(".structure-lying button[aria-expanded=true]")?.focus(),
              );
            }}
          >
            Keep
          </button>
          <button
            type="button"
            className="button"
            onClick={() => {
              drop();
              say("Dropped; nothing has changed.");
            }}
          >
            Drop
          </button>
        </div>
      )}
      {built.alignments.length === 0 && <p>There are no two bands with a figure, one above the other.</p>}
      <ul className="structure-lying" aria-label="Bands over one another, the uppermost first">
        {built.alignments.toReversed().map((one, index) => {
          const at = built.alignments.length - 1 - index;
          const [below, above] = [bandOf.get(one.below)!, bandOf.get(one.above)!];
          const open = over === at;
          const title = `${capital(bandCalled(above))} over ${bandCalled(below)}`;
          return (
            <li key={at} data-open={open}>
              <button
                type="button"
                className="structure-pair"
                aria-expanded={open}
                onClick={() => {
                  onChoose(open ? null : at);
                  onTry(null);
                  if (!open) say(`${title}. ${meetsWords(one)}`);
                }}
              >
                <span className="structure-name">{title}</span>
                <span className="structure-short">{meetsWords(one)}</span>
              </button>
              {open && (
                <div className="structure-open">
                  <p>{betweenWords(one)}</p>
                  {!tried && (
                    <ul className="structure-ways">
                      {one.ways.map((way) => (
                        <li key={way.change}>
                          <button
                            type="button"
                            className="button mend"
                            onClick={(event) => {
                              came.current =
                                event.currentTarget.closest("li[data-open]")?.querySelector("button") ?? null;
                              onTry({ from: project, edits: way.edits, name: way.sentence });
                              say(`Tried, not kept: ${way.sentence}. The chart shows it.`);
                            }}
                          >
                            <span>
                              {way.change}
                              <span className="mend-by">{way.effect}</span>
                            </span>
                          </button>
                        </li>
                      ))}
                    </ul>
                  )}
                  <Switch
                    name="It is meant so"
                    on={above.said?.meant === true}
                    onTurn={(meant) =>
                      commit(
                        [meant ? sayOf(chart.id, above, { meant }) : takeBack(chart.id, above, "meant")],
                        meant ? `${title} is meant so` : `${title}: looked at again`,
                      )
                    }
                  />
                </div>
              )}
            </li>
          );
        })}
      </ul>
      <section className="structure-rounds" aria-labelledby="structure-rounds-title">
        <h3 id="structure-rounds-title">In the rounds</h3>
        {roundsSentences(built).map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {built.throughDecreases.map(({ section, size, below, above, times, meets, round }) => (
          <p key={`${section} ${size} ${round}`}>
            {capital(section)}, {size}: through the decreases before round {round} {times[1]} repeats of{" "}
            {bandCalled(bandOf.get(above)!)} stand on {times[0]} of {bandCalled(bandOf.get(below)!)}, {meets}.
          </p>
        ))}
      </section>
    </>
  );
}

const betweenWords = ({ between, repeats }: BuiltAlignment): string =>
  `${between === 0 ? "No plain row" : between === 1 ? "One plain row" : `${between} plain rows`} between them; repeats of ${repeats[0]} below and ${repeats[1]} above. The lines on the chart are the middles of both.`;
