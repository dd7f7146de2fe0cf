/** Which colourway is looked at; copies, so that a version is never written over. */
import { lazy, Suspense, useRef, useState, type ReactNode } from "react";
import { Icon } from "../ui/Icon.tsx";
import { useBench } from "./bench.ts";
import { freeId } from "./words.ts";

const GarmentPicture = lazy(() =>
  import("../garmentPicture/GarmentPicture.tsx").then((module) => ({ default: module.GarmentPicture })),
);

export function ColourwaySwitch(): ReactNode {
  const { project, colourway, look, commit } = useBench();
  const [renaming, setRenaming] = useState(false);
  const [picturing, setPicturing] = useState(false);
  const more = useRef<HTMLElement>(null);
  if (!project || !colourway) return null;
  const nameOf = (id: string) => {
    const found = project.colourways.find((one) => one.id === id);
    return found?.name ?? id;
  };
  const name = nameOf(colourway.id);

  const copy = () => {
    const id = freeId("w", project.colourways);
    const done = commit(
      [{ kind: "addColourway", id, from: colourway.id, name: `${name}, again` }],
      `copying “${name}”`,
    );
    if (done) look({ colourway: id });
  };
  const remove = () => {
    const others = project.colourways.filter(({ id }) => id !== colourway.id);
    const done = commit([{ kind: "removeColourway", colourway: colourway.id }], `removing “${name}”`);
    if (done) look({ colourway: others[0]?.id ?? null });
  };
  const rename = (next: string) => {
    setRenaming(false);
    if (next.trim() && next.trim() !== name)
      commit([{ kind: "renameColourway", colourway: colourway.id, name: next.trim() }], "renaming the colourway");
  };

  return (
    <div className="colourway" role="group" aria-label="Colourway">
      {renaming ? (
        <input
          className="field"
          aria-label="Name of the colourway"
          autoFocus
          maxLength={80}
          defaultValue={name}
          onBlur={(event) => rename(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== "Enter" && event.key !== "Escape") return;
            if (event.key === "Enter") rename(event.currentTarget.value);
            setRenaming(false);
            more.current?.focus();
          }}
        />
      ) : (
        <label className="picker">
          <span className="picker-word">Colourway</span>
          <select value={colourway.id} onChange={(event) => look({ colourway: event.target.value })}>
            {project.colourways.map(({ id }) => (
              <option key={id} value={id}>
                {nameOf(id)}
              </option>
            ))}
          </select>
        </label>
      )}
      <button
        type="button"
        className="tool with-word"
        aria-label="Copy this colourway"
        onClick={copy}
        title="A copy to change, beside this one"
      >
        <Icon name="copy" />
        <span>Copy</span>
      </button>
      <details
        className="more"
        onBlur={(event) => {
          if (!event.currentTarget.contains(event.relatedTarget)) event.currentTarget.removeAttribute("open");
        }}
        onKeyDown={(event) => {
          if (event.key !== "Escape" || !event.currentTarget.open) return;
          event.preventDefault();
          event.currentTarget.removeAttribute("open");
          event.currentTarget.querySelector("summary")?.focus();
        }}
      >
        <summary ref={more} className="tool" aria-label="More for this colourway" title="More for this colourway">
          <Icon name="more" />
        </summary>
        <div className="more-list">
          <button
            type="button"
            className="button"
            onClick={(event) => {
              event.currentTarget.closest("details")?.removeAttribute("open");
              setRenaming(true);
            }}
          >
            Rename
          </button>
          <button
            type="button"
            className="button"
            disabled={project.colourways.length < 2}
            onClick={(event) => {
              event.currentTarget.closest("details")?.removeAttribute("open");
              more.current?.focus();
              remove();
            }}
          >
            Remove
          </button>
          <button
            type="button"
            className="button"
            onClick={(event) => {
              event.currentTarget.closest("details")?.removeAttribute("open");
              more.current?.focus();
              setPicturing(true);
            }}
          >
            Colours from a picture…
          </button>
        </div>
      </details>
      {picturing && (
        <Suspense>
          <GarmentPicture onClose={() => setPicturing(false)} />
        </Suspense>
      )}
    </div>
  );
}
