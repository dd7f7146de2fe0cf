/** What is to be known of a sheet: why it has no chart, and the other way on; or what is doubtful of it. */
import type { ReactNode } from "react";
import { Refused } from "../ui/Refused.tsx";
import { hasUnknownShade, sheetName, type ChartInHand, type SheetInHand } from "./reading.ts";
import { countWords } from "./words.ts";

interface SheetWordsProps {
  readonly sheet: SheetInHand;
  /** Those that lie on it. */
  readonly charts: readonly ChartInHand[];
  readonly onByHand: () => void;
}

export function SheetWords({ sheet, charts, onByHand }: SheetWordsProps): ReactNode {
  const { state, keyless } = sheet;
  const told = [...sheet.told, ...(charts.some(hasUnknownShade) ? keyless : [])];
  if (state === "waiting") return null;
  if (state === "refused") return <Refused title={`${sheetName(sheet)} was not opened`} sentences={told} />;
  if (charts.length === 0)
    return (
      <Refused title={`No chart was found in ${sheetName(sheet)}`} sentences={told}>
        <p>If there is one, show where: its four corners, and how many stitches and rows lie between them.</p>
        <div>
          <button type="button" className="button strong" onClick={onByHand}>
            Lay the grid by hand
          </button>
        </div>
      </Refused>
    );
  return (
    <details className="sheet-words">
      <summary>
        {sheetName(sheet)}: {told.length === 0 ? "read without a remark" : countWords(told.length, "remark")}
      </summary>
      {told.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p>
        Another chart on it, or none of those found is right?{" "}
        <button type="button" className="button" onClick={onByHand}>
          Lay a grid by hand
        </button>
      </p>
    </details>
  );
}
