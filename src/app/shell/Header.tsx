/** The top of the bench: whose work this is, which colourway is looked at, the way back, and her file. */
import { lazy, Suspense, useEffect, useRef, useState, type ReactNode } from "react";
import { FileInput } from "../ui/FileInput.tsx";
import { Icon } from "../ui/Icon.tsx";
import { brokenSentence } from "../worker/answers.ts";
import { useBench } from "./bench.ts";
import { ColourwaySwitch } from "./ColourwaySwitch.tsx";
import { openProjectFile, saveProjectFile } from "./files.ts";
import type { Stage } from "./view.ts";

// Seldom asked for, and then for a minute.
const ClothDialog = lazy(() => import("../cloth/ClothDialog.tsx").then((module) => ({ default: module.ClothDialog })));

export function Header(): ReactNode {
  const { project, undo, redo, travel, store, look, tell, say, colourway, note, view } = useBench();
  const picker = useRef<HTMLInputElement>(null);
  const [cloth, setCloth] = useState(false);

  const open = async (file: File) => {
    try {
      const { value: opened, message } = await openProjectFile(file);
      if (opened) {
        store.replace(opened, { name: `opening ${file.name}`, colourway: colourway?.id ?? null });
        look({ colourway: null, chart: null, panel: "fabric", stage: "bench" });
        note.set(false);
        say(`${opened.name} is open.`);
      }
      tell(message);
    } catch (reason) {
      tell({ title: `${file.name} was not opened`, sentences: [brokenSentence(reason)] });
    }
  };
  const save = () => {
    if (!project) return;
    saveProjectFile(project).then(
      (name) => say(`Saved as ${name}.`),
      (reason: unknown) => tell({ title: "The file was not saved", sentences: [brokenSentence(reason)] }),
    );
  };

  return (
    <header className="header">
      <div className="header-name">
        <Icon name="stitch" size={22} />
        <h1 className="unseen">Twostrand: {project?.name ?? "opening"}</h1>
        <div className="header-words">
          {project && <ProjectName name={project.name} />}
          <KeptWords />
        </div>
      </div>
      {project && <StageSwitch />}
      {project && view.stage === "bench" && <ColourwaySwitch />}
      <div className="header-tools">
        <div className="tool-group" role="group" aria-label="Way back">
          <button
            type="button"
            className="tool"
            disabled={!undo}
            title={undo ? `Undo: ${undo.name}` : "Nothing to undo"}
            aria-label={undo ? `Undo: ${undo.name}` : "Undo"}
            onClick={() => travel("undo")}
          >
            <Icon name="undo" />
          </button>
          <button
            type="button"
            className="tool"
            disabled={!redo}
            title={redo ? `Redo: ${redo.name}` : "Nothing to redo"}
            aria-label={redo ? `Redo: ${redo.name}` : "Redo"}
            onClick={() => travel("redo")}
          >
            <Icon name="redo" />
          </button>
        </div>
        {project && (
          <button
            type="button"
            className="tool with-word"
            aria-haspopup="dialog"
            aria-label="Your cloth"
            title="What your own knitting is like"
            onClick={() => setCloth(true)}
          >
            <Icon name="cloth" />
            <span>Cloth</span>
          </button>
        )}
        {cloth && (
          <Suspense>
            <ClothDialog onClose={() => setCloth(false)} />
          </Suspense>
        )}
        <div className="tool-group" role="group" aria-label="Your file">
          <button
            type="button"
            className="tool with-word"
            aria-label="Open a project file"
            onClick={() => picker.current?.click()}
          >
            <Icon name="open" />
            <span>Open</span>
          </button>
          <button
            type="button"
            className="tool with-word"
            aria-label="Save to a project file"
            disabled={!project}
            onClick={save}
          >
            <Icon name="save" />
            <span>Save</span>
          </button>
          <FileInput
            picker={picker}
            name="Project file"
            accept=".json,application/json"
            onFile={(file) => void open(file)}
          />
        </div>
      </div>
    </header>
  );
}

const STAGES: readonly { readonly stage: Stage; readonly name: string; readonly title: string }[] = [
  { stage: "pattern", name: "Pattern", title: "The charts, and how they are built" },
  { stage: "bench", name: "Bench", title: "The fabric, its ladder and its findings" },
  { stage: "yarns", name: "Yarns", title: "Every yarn you have" },
];

function StageSwitch(): ReactNode {
  const { view, look } = useBench();
  return (
    <nav className="stages" aria-label="Place">
      {STAGES.map(({ stage, name, title }) => (
        <button
          key={stage}
          type="button"
          title={title}
          aria-pressed={view.stage === stage}
          onClick={() => look({ stage })}
        >
          {name}
        </button>
      ))}
    </nav>
  );
}

function ProjectName({ name }: { readonly name: string }): ReactNode {
  const { commit } = useBench();
  const [draft, setDraft] = useState(name);
  useEffect(() => setDraft(name), [name]);
  const keep = () => {
    const next = draft.trim();
    if (!next) setDraft(name);
    else if (next !== name) commit([{ kind: "setName", name: next }], "renaming the project");
  };
  return (
    <input
      className="project-name"
      aria-label="Project name"
      size={Math.max(8, draft.length)}
      maxLength={120}
      value={draft}
      onChange={(event) => setDraft(event.target.value)}
      onBlur={keep}
      onKeyDown={(event) => {
        if (event.key === "Enter") event.currentTarget.blur();
        if (event.key === "Escape") setDraft(name);
      }}
    />
  );
}

function KeptWords(): ReactNode {
  const { kept } = useBench();
  if (kept.state === "unkept")
    return (
      <p className="kept unkept" role="alert">
        {kept.sentence}
      </p>
    );
  const time =
    kept.state === "kept" && kept.at
      ? ` · ${kept.at.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" })}`
      : "";
  const words = { opening: "opening…", writing: "keeping…", kept: `kept${time}` }[kept.state];
  return (
    <p className="kept" title="In this browser. Save writes a file that is yours." data-state={kept.state}>
      {words}
    </p>
  );
}
