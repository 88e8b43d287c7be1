/** What weights lay on a rotation, for each metre of bed and year. */
export const ROTATION_WEIGHTS = {
  juglone: { unit: 'for each metre and year that a sensitive crop stands within a walnut’s reach', usual: 3 },
  canopy: { unit: 'for each metre and year that something stands beneath a canopy', usual: 2 },
  support: { unit: 'for each metre and year that climbs where no permanent support stands', usual: 1 },
} as const satisfies Record<string, { unit: string; usual: number }>
export type RotationWeight = keyof typeof ROTATION_WEIGHTS
