/** Where nothing was found on a sheet, or not what she wants: four corners and two counts, and it is read by those. */
import { useMemo, useState, type ReactNode } from "react";
import { gridBetween } from "../../intake/findGrids.ts";
import { GridHandles } from "./GridHandles.tsx";
import { GridPanel } from "./GridPanel.tsx";
import { draftWrong, firstDraft, type GridDraft } from "./laying.ts";
import { chartInHand, sheetName, type SheetInHand } from "./reading.ts";
import { SheetView } from "./SheetView.tsx";
import type { Reading } from "./useReading.ts";
import { useSheetPictures } from "./useSheetPictures.ts";
import { fileWords } from "./words.ts";

interface ByHandProps {
  readonly reading: Reading;
  readonly sheet: SheetInHand;
  readonly say: (sentence: string) => void;
  readonly onRead: (key: string) => void;
}

let last = 0;

export function ByHand({ reading, sheet, say, onRead }: ByHandProps): ReactNode {
  const pictures = useSheetPictures(sheet);
  const [draft, setDraft] = useState<GridDraft | null>(null);
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const now = useMemo(() => draft ?? firstDraft(sheet), [draft, sheet]);
  const grid = useMemo(() => (draftWrong(now) ? null : gridBetween(now.corners, now.columns, now.rows)), [now]);
  const lay = async (snap: boolean): Promise<void> => {
    setWrong([]);
    const answer = await reading.lay(sheet, { ...now }, { snap });
    if (!answer) return;
    const { value, told } = answer;
    if (!value) return setWrong(told);
    const key = `${sheet.key} by hand ${++last}`;
    const chart = chartInHand(key, fileWords(sheet.file.name), value, sheet.key, false);
    reading.act("a chart read by your grid", (charts) => [...charts, chart]);
    say(`A chart read by your grid: ${value.looks.columns} stitches, ${value.looks.rows} rows.`);
    onRead(key);
  };
  return (
    <div className="chart-check" data-part="grid">
      <div className="check-picture">
        {pictures ? (
          <SheetView
            pictures={pictures}
            name={sheetName(sheet)}
            cells={null}
            cover={0}
            chosen={null}
            doubtful={NONE}
            alike={NONE}
            draft={grid}
            label="The sheet with the grid. Plus and minus come nearer and go farther, arrow keys move the sheet, Tab goes to the handles."
            onChoose={() => {}}
            onKey={() => false}
          >
            {(look) => <GridHandles draft={now} size={pictures} look={look} onChange={setDraft} />}
          </SheetView>
        ) : (
          <div className="sheet-waiting" role="status">
            Opening the picture…
          </div>
        )}
      </div>
      <div className="check-side">
        {wrong.map((sentence) => (
          <p key={sentence} role="alert" className="reading-wrong">
            {sentence}
          </p>
        ))}
        <GridPanel
          draft={now}
          isMoved={draft !== null}
          isRead={false}
          size={sheet}
          isBusy={reading.progress !== null}
          onDraft={setDraft}
          onBack={() => setDraft(null)}
          onLay={(snap) => void lay(snap)}
          onLine={() => {}}
        />
      </div>
    </div>
  );
}

const NONE: readonly never[] = [];
