/** Units that a mesh file may be in, in mm. */
export const fileUnits = { mm: 1, cm: 10, m: 1000, in: 25.4 } as const;

export type FileUnit = keyof typeof fileUnits;

export const fileUnitNames = Object.keys(fileUnits) as FileUnit[];
