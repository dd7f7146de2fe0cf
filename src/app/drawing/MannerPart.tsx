/** How the tool in the hand draws: mirrored, in every repeat, filled, across the round's end. */
import { useState, type ReactNode } from "react";
import { Switch } from "../wishes/controls.tsx";
import { CountField, countIn } from "./CountField.tsx";
import type { Desk } from "./useDesk.ts";

export function MannerPart({ desk }: { readonly desk: Desk }): ReactNode {
  const { tool, manners, grid, chart, selection } = desk;
  const draws = tool === "pencil" || tool === "line" || tool === "rectangle";
  const [every, setEvery] = useState("");
  if (!draws && tool !== "fill") return null;
  return (
    <section className="desk-part" aria-label="How it is drawn">
      {draws && (
        <>
          <Switch
            name={`Mirrored about the middle of ${selection ? "what is chosen" : "the chart"}`}
            on={manners.isMirrored}
            onTurn={(isMirrored) => manners.turn({ isMirrored })}
          />
          <Switch
            name="In every repeat of its band"
            on={manners.isRepeated}
            onTurn={(isRepeated) => manners.turn({ isRepeated })}
          />
          {manners.isRepeated && (
            <>
              <CountField
                name="or every … stitches"
                value={every}
                least={1}
                most={grid.width}
                onType={(next) => {
                  setEvery(next);
                  manners.turn({ every: countIn(next, 1, grid.width) });
                }}
              />
              {manners.every === null && (
                <p className="desk-hint">
                  A plain row has no repeat: there a stitch is drawn once, unless you say how often.
                </p>
              )}
            </>
          )}
        </>
      )}
      {tool === "rectangle" && (
        <Switch name="Filled" on={manners.isFilled} onTurn={(isFilled) => manners.turn({ isFilled })} />
      )}
      {tool === "fill" && chart.worked !== "flat" && (
        <Switch
          name="Across the round’s end"
          on={manners.acrossEnd}
          onTurn={(acrossEnd) => manners.turn({ acrossEnd })}
        />
      )}
      {tool === "fill" && selection && <p className="desk-hint">Held to what is chosen.</p>}
    </section>
  );
}
