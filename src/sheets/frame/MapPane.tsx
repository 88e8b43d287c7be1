import { useSignalEffect } from '@preact/signals'
import { useEffect, useRef, useState } from 'preact/hooks'
import { WhereFirst } from '../ground/WhereFirst.tsx'
import { startBringing } from '../state/bringing.ts'
import { openFarm } from '../state/farm.ts'
import { farmMap, mapFault } from '../state/mapHandle.ts'
import { sheet } from '../state/where.ts'
import { HoverNote } from './HoverNote.tsx'
import { holdMap } from './holdMap.ts'
import { keepPrintSize } from './printSize.ts'
import { SwipeLine } from './SwipeLine.tsx'
import { LEGENDS, STRIPS } from './sheetParts.ts'
import { TitleBlock } from './TitleBlock.tsx'
import { ZoomTools } from './ZoomTools.tsx'

/** The map with what belongs to it: the sheet's tools, its legend, and the title block at its foot. */
export function MapPane() {
  const [dropping, setDropping] = useState(false)
  const canvas = useRef<HTMLDivElement>(null)
  const pane = useRef<HTMLElement>(null)
  useEffect(() => holdMap(canvas.current!), [])
  useEffect(() => keepPrintSize(pane.current!), [])
  useSignalEffect(() => {
    farmMap.value?.setSheet(sheet.value)
  })
  const Legend = LEGENDS[sheet.value]
  const Strip = STRIPS[sheet.value]
  return (
    <section
      class={dropping ? 'map-pane dropping' : 'map-pane'}
      onDragOver={(event) => {
        if (!event.dataTransfer?.types.includes('Files')) return
        event.preventDefault()
        setDropping(true)
      }}
      onDragLeave={() => setDropping(false)}
      onDrop={(event) => {
        event.preventDefault()
        setDropping(false)
        void startBringing([...(event.dataTransfer?.files ?? [])])
      }}
      ref={pane}
      aria-label={`Map of ${openFarm.value!.farm.name}`}
    >
      <div class="map-ground">
        <div class="map-canvas" ref={canvas} />
        <SwipeLine />
        <ZoomTools />
        <div class="map-strip">
          {Strip && <Strip />}
          {mapFault.value !== null && (
            <p class="fault" role="alert">
              {mapFault.value}
            </p>
          )}
        </div>
        <HoverNote />
        <WhereFirst />
      </div>
      {Legend && <Legend />}
      <TitleBlock />
    </section>
  )
}
