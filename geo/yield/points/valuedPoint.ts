/** A value told of a place in the plane. */
export interface ValuedPoint {
  readonly x: number
  readonly y: number
  readonly value: number
}

/** Points of the same place as one, with their mean: two values of one place can't both be held to exactly. */
export function withoutTwins(points: readonly ValuedPoint[]): ValuedPoint[] {
  const places = new Map<string, ValuedPoint[]>()
  for (const point of points) {
    const key = `${point.x} ${point.y}`
    const there = places.get(key)
    if (there) there.push(point)
    else places.set(key, [point])
  }
  return [...places.values()].map((there) => ({
    ...there[0]!,
    value: there.reduce((sum, { value }) => sum + value / there.length, 0),
  }))
}
