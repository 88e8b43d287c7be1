/** The half year about midsummer of a day's year at a latitude, April to September or October to March: a first guess. */
export function growingMonths(on: string, latitude: number): { readonly from: string; readonly to: string } {
  const year = Number(on.slice(0, 4))
  if (latitude >= 0) return { from: `${year}-04-01`, to: `${year}-09-30` }
  const first = Number(on.slice(5, 7)) >= 7 ? year : year - 1
  return { from: `${first}-10-01`, to: `${first + 1}-03-31` }
}
