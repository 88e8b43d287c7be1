/** Whether what lasts so many seasons is bought in season n (0 for the first): lasting 2.5, in 0, 3, 5, 8 … */
export const isDue = (n: number, lasts: number): boolean => n === 0 || renewals(n, lasts) > renewals(n - 1, lasts)

/** Times that it was worn out by the beginning of season n. */
const renewals = (n: number, lasts: number) => Math.floor(n / lasts + 1e-9)
