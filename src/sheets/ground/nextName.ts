/**
 * The next free name after those there are: B13 → B14, "Row 009" → "Row 010". The prefix is the one that most of them
 * have; where none ends in a number, `first` with the first free number behind it.
 */
export function nextName(names: readonly string[], first: string): string {
  const taken = new Set(names)
  const found = new Map<string, { count: number; most: number; digits: number }>()
  for (const name of names) {
    const match = /^(.*?)(\d{1,9})$/.exec(name)
    if (!match) continue
    const [, prefix, number] = match
    const before = found.get(prefix!) ?? { count: 0, most: 0, digits: 1 }
    const padded = number!.startsWith('0') ? number!.length : 1
    found.set(prefix!, {
      count: before.count + 1,
      most: Math.max(before.most, Number(number)),
      digits: Math.max(before.digits, padded),
    })
  }
  const usual = [...found].sort(([, a], [, b]) => b.count - a.count)[0]
  if (usual) return usual[0] + String(usual[1].most + 1).padStart(usual[1].digits, '0')
  let n = 1
  while (taken.has(`${first}${n}`)) n += 1
  return `${first}${n}`
}
