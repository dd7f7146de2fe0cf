/** Brings a file of an older version to the newest one, step by step; a step, once released, is never changed. */
import { assert } from "../base/assert.ts";
import { PROJECT_VERSION } from "./project.ts";

export type FileRecord = Readonly<Record<string, unknown>>;

export interface Migration {
  /** The version that it makes, out of the one before. */
  readonly to: number;
  /** What changes and why, in a sentence. */
  readonly description: string;
  /** Pure: a new record; unknown fields stay. It need not set `version`. */
  readonly up: (file: FileRecord) => FileRecord;
}

/** In order. Version 1 is the first there is, so nothing has had to be brought forward yet. */
export const MIGRATIONS: readonly Migration[] = [];

/** The file as a version-`newest` record. `from` was checked to be a version that there has been. */
export function migrate(
  file: FileRecord,
  from: number,
  migrations: readonly Migration[] = MIGRATIONS,
  newest: number = PROJECT_VERSION,
): FileRecord {
  assert(migrations.length === newest - 1, "every version but the first has its migration");
  return migrations.reduce((record, migration, index) => {
    assert(migration.to === index + 2, "migrations are numbered without a gap");
    return migration.to > from ? { ...migration.up(record), version: migration.to } : record;
  }, file);
}
