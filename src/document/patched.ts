/** A record with some fields set, and those given as null gone: how an edit changes one thing and leaves the rest. */
export function patched<T extends object>(record: T, fields: { readonly [Field in keyof T]?: T[Field] | null }): T {
  const gone = new Set(Object.entries(fields).flatMap(([name, value]) => (value === null ? [name] : [])));
  return Object.fromEntries(Object.entries({ ...record, ...fields }).filter(([name]) => !gone.has(name))) as T;
}
