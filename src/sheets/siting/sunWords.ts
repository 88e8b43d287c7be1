import type { FarmCasters } from '../../desk/door.ts'
import { showCount, showNumber } from '../show/figures.ts'

/** What is assumed of heights that nobody told. */
export function assumedHeights({ assumedSupports, assumedTrees }: FarmCasters, supportHeightM: number): string[] {
  return [
    ...(assumedSupports > 0
      ? [
          `${showCount(assumedSupports)} of the supports have no height and are taken as ${showNumber(supportHeightM, 1)} m high.`,
        ]
      : []),
    ...(assumedTrees > 0
      ? [`${showCount(assumedTrees)} of the trees have no height and are taken to be as high as they are wide.`]
      : []),
  ]
}
