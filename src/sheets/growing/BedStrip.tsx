import { useSignalEffect } from '@preact/signals'
import { useEffect, useState } from 'preact/hooks'
import type { BedHistory } from '../../desk/door.ts'
import { ask } from '../state/door.ts'
import { seasonStartMonth } from '../state/farm.ts'
import { patched } from '../state/shown.ts'
import { on } from '../state/where.ts'
import { bedStrip } from './bedStrip.ts'

/** As wide as the card on a desk, so that its words are as large as the card's notes; in print it grows with the page. */
const WIDTH = 330
const NAMES = 76
const LANE = 44
const HEAD = 20

/** A bed's history as a strip: seasons from left to right, its rows from above to below as they lie, each planting where along its row it stood. */
export function BedStrip({ bed }: { readonly bed: string }) {
  const [history, setHistory] = useState<BedHistory | null>(null)
  const [changes, setChanges] = useState(() => patched.peek()?.n ?? 0)
  useSignalEffect(() => setChanges(patched.value?.n ?? 0))
  useEffect(() => {
    let over = false
    void ask('bedHistory', { bed }).then((reply) => {
      if (!over && reply.ok) setHistory(reply.value)
    })
    return () => {
      over = true
    }
  }, [bed, changes])
  if (!history || history.bed !== bed || history.stood.length === 0) return null
  const strip = bedStrip(history, on.value, seasonStartMonth.value)
  const height = HEAD + strip.lanes.length * LANE + 4
  const x = (share: number) => NAMES + share * (WIDTH - NAMES)
  const families = new Map(strip.families.map((family, i) => [family, i % 6]))
  return (
    <figure class="bed-strip">
      <figcaption>What stood where in {history.name}</figcaption>
      <svg
        viewBox={`0 0 ${WIDTH} ${height}`}
        role="img"
        aria-label={`What stood where in ${history.name}, ${strip.words}`}
      >
        {strip.seasons.map(({ season, at }) => (
          <g key={season}>
            <path class="strip-season" d={`M${x(at)} 0V${height}`} />
            <text class="strip-year" x={x(at) + 4} y="14">
              {season}
            </text>
          </g>
        ))}
        {strip.lanes.map((lane, i) => (
          <g key={lane.row ?? ''} transform={`translate(0 ${HEAD + i * LANE})`}>
            <path class="strip-rule" d={`M0 0H${WIDTH}`} />
            <text class="strip-side" x="0" y="18">
              {lane.name}
            </text>
            {lane.blocks.map((block) => {
              const top = 2 + block.top * (LANE - 4)
              const tall = Math.max(3, block.share * (LANE - 4))
              const wide = Math.max(2, x(block.to) - x(block.from))
              return (
                <g
                  key={block.planting}
                  class={`family-${families.get(block.family)}${block.planned ? ' still-planned' : ''}`}
                >
                  <rect class="strip-block" x={x(block.from)} y={top} width={wide} height={tall}>
                    <title>{block.words}</title>
                  </rect>
                  {tall >= 12 && wide >= 7 * Math.min(block.crop.length, 4) && (
                    <text class="strip-crop" x={x(block.from) + 3} y={top + Math.min(tall - 3, 13)}>
                      {block.crop.slice(0, Math.max(3, Math.floor(wide / 7)))}
                    </text>
                  )}
                </g>
              )
            })}
          </g>
        ))}
        <path class="strip-now" d={`M${x(strip.now)} 0V${height}`} />
      </svg>
      <ul class="strip-families">
        {strip.families.map((family) => (
          <li key={family}>
            <svg width="22" height="12" viewBox="0 0 22 12" aria-hidden="true" class={`family-${families.get(family)}`}>
              <rect class="strip-block" x="1" y="1" width="20" height="10" />
            </svg>
            {family}
          </li>
        ))}
      </ul>
      <details class="stood">
        <summary>The same as a list</summary>
        <ul>
          {strip.lanes.flatMap((lane) => lane.blocks.map((block) => <li key={block.planting}>{block.words}</li>))}
        </ul>
      </details>
    </figure>
  )
}
