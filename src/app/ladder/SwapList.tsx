/** The yarns with which a letter's own could change places, each with what that would do: walked by arrow keys, taken by Enter. */
import { useMemo, type ReactNode } from "react";
import { ListBox, ListBoxItem } from "react-aria-components/ListBox";
import { useTogether } from "../worker/answers.ts";
import type { LadderRung } from "../worker/api.ts";
import { Glimpse } from "./Glimpse.tsx";
import type { YarnDot } from "./yarnDots.ts";
import { swapWords } from "./placeWords.ts";
import { swapped } from "./swaps.ts";
import { VerdictMark } from "./VerdictMark.tsx";

interface SwapListProps {
  readonly line: LadderRung;
  readonly lines: readonly LadderRung[];
  readonly yarns: readonly YarnDot[];
  readonly onTry: (yarn: string | null) => void;
  readonly onSwap: (yarn: string) => void;
}

export function SwapList({ line, lines, yarns, onTry, onSwap }: SwapListProps): ReactNode {
  const others = useMemo(() => {
    const lettersOf = (yarn: string) => lines.filter((one) => one.yarn === yarn).map(({ colour }) => colour);
    const ids = new Set(lines.flatMap(({ yarn }) => (yarn === null || yarn === line.yarn ? [] : [yarn])));
    return [...ids].flatMap((id) => {
      const dot = yarns.find((yarn) => yarn.id === id);
      return dot ? [{ ...dot, letters: lettersOf(id) }] : [];
    });
  }, [line, lines, yarns]);
  const sets = useMemo(() => others.map(({ id }) => swapped(lines, line.yarn!, id)), [others, lines, line]);
  const { value, busy, failed } = useTogether(sets);
  const own = lines.filter(({ yarn }) => yarn === line.yarn).map(({ colour }) => colour);
  if (others.length === 0) return <p className="empty">No other letter has a yarn yet.</p>;
  return (
    <>
      <p className="trial-head" role={failed ? "alert" : "status"}>
        {failed ??
          (busy ? "Every swap is being tried…" : `${line.yarnName ?? line.yarn}, in ${own.join(", ")}, swapped with:`)}
      </p>
      <ListBox
        aria-label={`Swaps for ${line.colour}`}
        className="yarn-list"
        autoFocus="first"
        selectionMode="none"
        items={others}
        dependencies={[value]}
        onAction={(key) => onSwap(String(key))}
      >
        {(other) => {
          const tried = value?.tries[others.findIndex(({ id }) => id === other.id)];
          const words = tried && swapWords(tried, value!.now);
          return (
            <ListBoxItem id={other.id} textValue={`${other.letters.join(", ")}, ${other.name}`} className="yarn-item">
              {({ isFocused, isHovered }) => (
                <>
                  <Glimpse yarn={other.id} wanted={isHovered || isFocused} onTry={onTry} />
                  <span className="swatch round" style={{ background: other.hex }} />
                  <span className="yarn-item-name">
                    <strong>{other.letters.join(", ")}</strong> {other.name}
                  </span>{" "}
                  {words && (
                    <>
                      <span className="yarn-item-more">
                        <VerdictMark verdict={words.verdict} best={false} />{" "}
                        {words.verdict === "same" ? "as now" : words.verdict}
                      </span>
                      <span className="yarn-item-trial" data-worse={words.verdict === "worse"}>
                        {" "}
                        {words.rows}
                        <span>{words.order}</span>
                      </span>
                    </>
                  )}
                </>
              )}
            </ListBoxItem>
          );
        }}
      </ListBox>
    </>
  );
}
