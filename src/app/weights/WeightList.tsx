/** Visual weights as pairs of bars without colour, her yarn's over the pattern's, heaviest first; what weighs about alike stands together. */
import { memo, useState, type ReactNode } from "react";
import { alikeGroups } from "./alike.ts";
import { shareWords } from "./weightWords.ts";

export interface WeighedYarn {
  readonly key: string;
  /** "K · Ember". */
  readonly name: string;
  readonly hex: string;
  readonly share: number;
  readonly was: number;
  readonly ground: boolean;
  /** Stands out, recurs; empty where it is not told. */
  readonly more: string;
}

interface WeightListProps {
  readonly lines: readonly WeighedYarn[];
  /** Lines that are shown before the rest is asked for. */
  readonly first: number;
}

export function WeightList({ lines, first }: WeightListProps): ReactNode {
  const [all, setAll] = useState(false);
  const ground = lines.find((line) => line.ground);
  const weighed = lines.filter((line) => !line.ground);
  const most = Math.max(...weighed.flatMap(({ share, was }) => [share, was]), 0);
  if (weighed.length === 0) return null;
  if (weighed.length === 1 && ground && most > 0) return <AloneOnGround line={weighed[0]!} ground={ground} />;
  // A whole group or none of it: to cut one would rank what has no rank.
  let count = 0;
  const groups = alikeGroups(weighed).filter((group, at) => {
    const shown = all || at === 0 || count + group.length <= first;
    if (shown) count += group.length;
    return shown;
  });
  const rest = weighed.length - count;
  return (
    <>
      <ol className="weight-groups">
        {groups.map((group) =>
          group.length === 1 ? (
            <WeightRow key={group[0]!.key} line={group[0]!} most={most} />
          ) : (
            <li key={group.map(({ key }) => key).join()} className="weight-alike">
              <p className="weight-alike-word">about alike</p>
              <ul className="weight-groups">
                {group.map((line) => (
                  <WeightRow key={line.key} line={line} most={most} />
                ))}
              </ul>
            </li>
          ),
        )}
      </ol>
      {ground && (
        <p className="weight-ground">
          <span className="swatch round small" style={{ background: ground.hex }} /> {ground.name} is the ground, and
          has none of it.
        </p>
      )}
      {(rest > 0 || (all && weighed.length > first)) && (
        <button type="button" className="button quiet" aria-expanded={all} onClick={() => setAll(!all)}>
          {all ? "Only the heaviest" : `${rest} more that ${rest === 1 ? "weighs" : "weigh"} less`}
        </button>
      )}
    </>
  );
}

/** Two colours: the share is all or nothing whatever the yarns, so there is nothing to draw. */
function AloneOnGround({ line, ground }: { readonly line: WeighedYarn; readonly ground: WeighedYarn }): ReactNode {
  return (
    <p>
      <span className="swatch round small" style={{ background: line.hex }} /> {line.name} lies alone on{" "}
      <span className="swatch round small" style={{ background: ground.hex }} /> {ground.name}, so all of the weight is
      its own, here as in the pattern{line.more && `; it ${line.more}`}.
    </p>
  );
}

/** Thousandths: a bar that moves by less is not seen to move, and need not be drawn again. */
const fraction = (share: number, most: number): number => (most > 0 ? Math.round((share / most) * 1000) / 1000 : 0);

interface WeightRowProps {
  readonly line: WeighedYarn;
  readonly most: number;
}

function WeightRow({ line, most }: WeightRowProps): ReactNode {
  const { name, hex, share, was, more } = line;
  return (
    <li className="weight">
      <WeightDrawing
        name={name}
        hex={hex}
        more={more}
        share={shareWords(share)}
        was={shareWords(was)}
        now={fraction(share, most)}
        then={fraction(was, most)}
      />
    </li>
  );
}

interface WeightDrawingProps {
  readonly name: string;
  readonly hex: string;
  readonly more: string;
  readonly share: string;
  readonly was: string;
  readonly now: number;
  readonly then: number;
}

/** Drawn anew only when something on it is another: the distance moves at every frame, most of this does not. */
const WeightDrawing = memo(function WeightDrawing({ name, hex, more, share, was, now, then }: WeightDrawingProps) {
  return (
    <>
      <span className="swatch round small" style={{ background: hex }} />
      <span className="weight-name">{name}</span>
      <span className="weight-bar now" aria-hidden="true" style={{ transform: `scaleX(${now})` }} />
      <span className="weight-share">{share}</span>
      <span className="weight-bar then" aria-hidden="true" style={{ transform: `scaleX(${then})` }} />
      <span className="weight-share then">
        <span className="unseen">in the pattern </span>
        {was}
      </span>
      {more && <span className="weight-more">{more}</span>}
    </>
  );
});
