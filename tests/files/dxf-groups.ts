/** The group codes and values of a DXF text, pair by pair. */
export function groupsOf(text: string): readonly (readonly [code: number, value: string])[] {
  const lines = text.split('\r\n');
  return lines
    .slice(0, -1)
    .flatMap((line, i) => (i % 2 === 0 ? [[Number(line), lines[i + 1] ?? ''] as const] : []));
}

/** The groups of every entity of one kind. */
export function entitiesOf(text: string, kind: string): readonly (readonly (readonly [number, string])[])[] {
  const groups = groupsOf(text);
  const start = groups.findIndex(([code, value]) => code === 2 && value === 'ENTITIES');
  const found: (readonly [number, string])[][] = [];
  let open: (readonly [number, string])[] | undefined;
  for (const [code, value] of groups.slice(start)) {
    if (code === 0) {
      open = value === kind ? [] : undefined;
      if (open) found.push(open);
    } else open?.push([code, value]);
  }
  return found;
}

/** The values of one group code. */
export const valuesOf = (groups: readonly (readonly [number, string])[], code: number): readonly number[] =>
  groups.filter(([c]) => c === code).map(([, value]) => Number(value));

/** The value that follows a header variable's name. */
export function headerOf(text: string, name: string): readonly string[] {
  const groups = groupsOf(text);
  const at = groups.findIndex(([code, value]) => code === 9 && value === name);
  const end = groups.findIndex(([code], i) => i > at && (code === 9 || code === 0));
  return at < 0 ? [] : groups.slice(at + 1, end).map(([, value]) => value);
}
