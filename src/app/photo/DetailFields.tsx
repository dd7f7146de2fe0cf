/** What labels say and photographs do not: written once for all yarns, and otherwise for one. */
import { useId, type ReactNode } from "react";
import { typedNumber, type YarnDetails } from "./shelving.ts";

type TypedDetail = Exclude<keyof YarnDetails, "weighed">;

const FIELDS: readonly { readonly key: TypedDetail; readonly name: string; readonly isNumber: boolean }[] = [
  { key: "maker", name: "Maker", isNumber: false },
  { key: "quality", name: "Quality, put before the name", isNumber: false },
  { key: "fibre", name: "Fibre", isNumber: false },
  { key: "metresPer100g", name: "Metres per 100 g", isNumber: true },
  { key: "grams", name: "Grams of each", isNumber: true },
];

interface DetailFieldsProps {
  readonly legend: string;
  readonly details: Partial<YarnDetails>;
  /** What holds where nothing is said here; shown faintly. */
  readonly common?: YarnDetails;
  readonly onChange: (details: Partial<YarnDetails>) => void;
}

export function DetailFields({ legend, details, common, onChange }: DetailFieldsProps): ReactNode {
  const id = useId();
  return (
    <fieldset className="photo-details">
      <legend>{legend}</legend>
      {FIELDS.map(({ key, name, isNumber }) => {
        const value = details[key] ?? "";
        const isWrong = isNumber && Number.isNaN(typedNumber(value));
        return (
          <label key={key}>
            <span>{common && key === "grams" ? "Grams" : name}</span>
            <input
              className="field"
              inputMode={isNumber ? "decimal" : "text"}
              maxLength={120}
              autoComplete="off"
              placeholder={common?.[key]}
              value={value}
              aria-invalid={isWrong}
              aria-describedby={isWrong ? `${id}${key}` : undefined}
              onChange={(event) => onChange({ [key]: event.target.value })}
            />
            {isWrong && (
              <span id={`${id}${key}`} className="photo-wrong">
                a number above 0
              </span>
            )}
          </label>
        );
      })}
      <label className="photo-check">
        <input
          type="checkbox"
          checked={details.weighed ?? common?.weighed ?? false}
          onChange={(event) => onChange({ weighed: event.target.checked })}
        />
        <span>weighed, not read off the band</span>
      </label>
    </fieldset>
  );
}

/** What holds for one yarn: its own where she said so, else what holds for all. */
export function detailsOf(own: Partial<YarnDetails>, common: YarnDetails): YarnDetails {
  const typed = Object.fromEntries(Object.entries(own).filter(([, value]) => value !== ""));
  return { ...common, ...typed };
}

/** Whether everything typed can be understood. */
export const isUnderstood = (details: YarnDetails): boolean =>
  !Number.isNaN(typedNumber(details.grams)) && !Number.isNaN(typedNumber(details.metresPer100g));
