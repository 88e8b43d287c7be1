import type { Box } from '../plane/box.ts'
import type { Ground, GroundSupport } from './ground.ts'

const CELL_M = 25

/** Finds the supports whose box comes within reach of another, by a grid of cells laid over them once. */
export function supportsNear(supports: Ground['supports'], reachM: number): (box: Box) => readonly GroundSupport[] {
  const cells = new Map<string, GroundSupport[]>()
  for (const support of supports)
    for (const cell of cellsOf(support.box, reachM)) {
      const there = cells.get(cell)
      if (there) there.push(support)
      else cells.set(cell, [support])
    }
  return (box) => [...new Set(cellsOf(box, 0).flatMap((cell) => cells.get(cell) ?? []))]
}

function cellsOf([west, south, east, north]: Box, reachM: number): string[] {
  const cells: string[] = []
  for (let x = Math.floor((west - reachM) / CELL_M); x <= Math.floor((east + reachM) / CELL_M); x++)
    for (let y = Math.floor((south - reachM) / CELL_M); y <= Math.floor((north + reachM) / CELL_M); y++)
      cells.push(`${x} ${y}`)
  return cells
}
