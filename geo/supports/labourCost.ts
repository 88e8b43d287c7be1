/** Labour priced by the hour; nothing where it has no price. */
export const labourCost = (minutes: number, { labourPerHour }: { readonly labourPerHour: number | null }) =>
  (minutes / 60) * (labourPerHour ?? 0)
