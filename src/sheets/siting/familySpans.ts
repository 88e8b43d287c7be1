/** Families by the years in which they climb, years that follow each other joined: "Fabaceae 2027–2028". */
export function familySpans(years: Readonly<Record<string, string>>): string[] {
  const spans: { family: string; from: number; to: number }[] = []
  for (const [year, family] of Object.entries(years).sort(([a], [b]) => Number(a) - Number(b))) {
    const last = spans.at(-1)
    if (last && last.family === family && last.to === Number(year) - 1) last.to = Number(year)
    else spans.push({ family, from: Number(year), to: Number(year) })
  }
  return spans.map(({ family, from, to }) => `${family} ${from === to ? from : `${from}–${to}`}`)
}
