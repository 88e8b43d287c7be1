/** A square tile of thin slanting lines in a `#rrggbb` colour on clear ground, for the fill of buildings; drawn at twice its size. */
export function hatchTile(colour: string): { width: number; height: number; data: Uint8ClampedArray<ArrayBuffer> } {
  const side = 16
  const data = new Uint8ClampedArray(side * side * 4)
  const channels = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16))
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      const off = Math.abs(((x + y) % side) - side / 2)
      data.set([...channels, off < 0.5 ? 200 : off < 1.5 ? 90 : 0] as number[], (y * side + x) * 4)
    }
  return { width: side, height: side, data }
}
