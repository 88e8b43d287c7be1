/** What weights lay on a plan beside the money it costs. */
export const WEIGHTS = {
  shade: {
    unit: 'money for each m²·h of direct sun a day taken from beds, each year that the support stands',
    usual: 0.01,
  },
  juglone: { unit: 'money for each metre and year that a sensitive family climbs within a walnut’s reach', usual: 3 },
  canopy: { unit: 'money for each metre and year that something climbs beneath a canopy', usual: 2 },
  low_yield: {
    unit: 'money for each metre and year on a bed that gave nothing; by its shortfall on others',
    usual: 0.5,
  },
  wind: {
    unit: 'money for each metre of support square to the wind, once; less as it turns to lie along it',
    usual: 1,
  },
  prefer: { unit: 'money that a row asked for is worth, once', usual: 25 },
} as const satisfies Record<string, { unit: string; usual: number }>
export type Weight = keyof typeof WEIGHTS
