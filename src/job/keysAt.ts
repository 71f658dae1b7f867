/** Names a schema knows at a path; none where it takes any. For proposing near names.
 *  @example keysAt(printerProfileSchema)(['bed']) // => ['x', 'y', 'z'] */
export const keysAt =
  (schema: object) =>
  (path: readonly PropertyKey[]): readonly string[] => {
    const objectAt = path.reduce<Fields | undefined>(
      (object, key) => fieldsOf(object?.shape[String(key)]),
      fieldsOf(schema),
    );
    return Object.keys(objectAt?.shape ?? {});
  };

interface Fields {
  readonly shape: Readonly<Record<string, unknown>>;
}

/** The object in a schema that may be optional, have a normal value, or be one of several. */
function fieldsOf(schema: unknown): Fields | undefined {
  if (typeof schema !== 'object' || schema === null) return undefined;
  if ('shape' in schema) return schema as Fields;
  if ('options' in schema)
    return (schema.options as unknown[]).map(fieldsOf).find((one) => one !== undefined);
  return 'unwrap' in schema ? fieldsOf((schema.unwrap as () => unknown)()) : undefined;
}
