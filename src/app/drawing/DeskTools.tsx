/** The tools above the chart, and under it how large it is seen. */
import { useId, type ReactNode } from "react";
import { Icon, type IconName } from "../ui/Icon.tsx";
import { DeskIcon } from "./DeskIcon.tsx";
import { ZOOM_STEP } from "./DeskSurface.tsx";
import type { Tool } from "./gesture.ts";
import type { DeskView } from "./useDeskView.ts";

const TOOLS: readonly { readonly tool: Tool; readonly name: string; readonly title: string }[] = [
  { tool: "pencil", name: "Pencil", title: "Draws stitch by stitch" },
  { tool: "line", name: "Line", title: "A straight line from one stitch to another" },
  { tool: "rectangle", name: "Rectangle", title: "A rectangle, filled or its outline" },
  { tool: "fill", name: "Fill", title: "Fills what hangs together in one colour" },
  { tool: "select", name: "Choose", title: "Chooses a rectangle, and moves what is chosen" },
  { tool: "pick", name: "Take up", title: "Takes up the colour of a stitch" },
  { tool: "hand", name: "Shift", title: "Shifts the chart in its window" },
];

interface DeskToolsProps {
  readonly tool: Tool;
  readonly onTool: (tool: Tool) => void;
}

export function DeskTools({ tool, onTool }: DeskToolsProps): ReactNode {
  const name = useId();
  return (
    <fieldset className="desk-tools">
      <legend className="unseen">Tool</legend>
      {TOOLS.map(({ tool: one, name: word, title }) => (
        <label key={one} title={title}>
          <input type="radio" name={name} checked={tool === one} onChange={() => onTool(one)} />
          <span>
            <DeskIcon name={one} />
            <span className="desk-tool-word">{word}</span>
          </span>
        </label>
      ))}
    </fieldset>
  );
}

interface DeskLookProps {
  readonly view: DeskView;
  readonly thick: number;
  readonly onThick: (thick: number) => void;
}

export function DeskLook({ view, thick, onThick }: DeskLookProps): ReactNode {
  return (
    <div className="desk-look">
      <label className="desk-thick">
        <span>Lines every</span>
        <select className="field" value={thick} onChange={(event) => onThick(Number(event.target.value))}>
          <option value={5}>5</option>
          <option value={10}>10</option>
          <option value={0}>none</option>
        </select>
      </label>
      <div className="tool-group" role="group" aria-label="Size of the chart">
        <LookButton icon="smaller" name="Smaller stitches" onPress={() => view.zoomBy(1 / ZOOM_STEP)} />
        <LookButton icon="bigger" name="Larger stitches" onPress={() => view.zoomBy(ZOOM_STEP)} />
        <LookButton icon="width" name="Fit the width" onPress={view.seeWidth} />
        <LookButton icon="whole" name="See the whole chart" onPress={view.seeWhole} />
      </div>
    </div>
  );
}

interface LookButtonProps {
  readonly icon: IconName;
  readonly name: string;
  readonly onPress: () => void;
}

function LookButton({ icon, name, onPress }: LookButtonProps): ReactNode {
  return (
    <button type="button" className="tool" aria-label={name} title={name} onClick={onPress}>
      <Icon name={icon} />
    </button>
  );
}
