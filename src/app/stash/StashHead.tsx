/** The top of the page of yarns: how much there is, and the ways in which more comes onto the shelf. */
import { useEffect, useState, type ReactNode } from "react";
import type { Yarn } from "../../yarn/yarn.ts";
import { wholeWords } from "../shell/words.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import type { StashLine } from "./lines.ts";
import { emptied, ShelfMenu } from "./ShelfMenu.tsx";
import { useShelf } from "./useShelf.ts";

export interface Door {
  readonly key: string;
  readonly name: string;
  readonly open: () => void;
}

interface StashHeadProps {
  readonly lines: readonly StashLine[];
  readonly doors: readonly Door[];
}

export function StashHead({ lines, doors }: StashHeadProps): ReactNode {
  const grams = lines.reduce((sum, line) => sum + (line.grams ?? 0), 0);
  const metres = lines.reduce((sum, line) => sum + (line.metres ?? 0), 0);
  return (
    <header className="stash-head">
      <div className="stash-title">
        <h2 tabIndex={-1}>Your yarns</h2>
        {lines.length > 0 && (
          <p>
            {lines.length} {lines.length === 1 ? "yarn" : "yarns"}
            {grams > 0 && `, ${grams < 1000 ? `${wholeWords(grams)}\u202fg` : `${(grams / 1000).toFixed(1)}\u202fkg`}`}
            {metres > 0 && `, about ${wholeWords(Math.round(metres / 10) * 10)}\u202fm`}{" "}
            <NumberHelp of={["owned", "promised"]} about="how much yarn there is" />
          </p>
        )}
      </div>
      <div className="stash-doors" role="group" aria-label="More yarns">
        {doors.map(({ key, name, open }) => (
          <button key={key} type="button" className="button" data-door={key} onClick={open}>
            {name}
          </button>
        ))}
        <ShelfMenu />
      </div>
      <ExampleNote lines={lines} />
    </header>
  );
}

/** On a first visit the shelf has the worked example's yarns; whoever has none of her own yet is told so. */
function ExampleNote({ lines }: { readonly lines: readonly StashLine[] }): ReactNode {
  const { shelf, commitShelf } = useShelf();
  const [example, setExample] = useState<ReadonlySet<string> | null>(null);
  useEffect(() => {
    let live = true;
    void import("#examples/weather-station-vest.twostrand.json?raw").then(({ default: text }) => {
      const { yarns } = JSON.parse(text) as { yarns: Yarn[] };
      if (live) setExample(new Set(yarns.map(({ id, name }) => `${id} ${name}`)));
    });
    return () => {
      live = false;
    };
  }, []);
  const isExample =
    example !== null && lines.length > 0 && lines.every(({ id, yarn }) => example.has(`${id} ${yarn.name}`));
  if (!isExample) return null;
  return (
    <p className="stash-note">
      These are the worked example’s yarns, for trying things out.{" "}
      <button
        type="button"
        className="button quiet"
        onClick={() => commitShelf([{ kind: "replaceShelf", shelf: emptied(shelf) }], "an empty shelf")}
      >
        Begin with an empty shelf
      </button>
    </p>
  );
}
