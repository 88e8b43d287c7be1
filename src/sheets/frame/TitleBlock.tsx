import { CAUTIONS } from '../cautions.ts'
import { SHEET_TITLE, sheetNumber } from '../names.ts'
import { showDay } from '../show/dates.ts'
import { openFarm, units } from '../state/farm.ts'
import { mapView } from '../state/mapHandle.ts'
import { on, sheet } from '../state/where.ts'
import { grounds } from './grounds.ts'
import { InventedMark } from './InventedMark.tsx'
import { NorthArrow } from './NorthArrow.tsx'
import { ScaleBar } from './ScaleBar.tsx'

/** The block at the map's foot, as on any plan: farm, sheet, day, scale, north, and the cautions that go with it. */
export function TitleBlock() {
  const told = [...(grounds.value === null ? [] : [grounds.value]), ...CAUTIONS[sheet.value]]
  return (
    <section class="title-block" aria-label="Title block">
      {told.length > 0 && (
        <div class="title-cautions">
          {told.map((words) => (
            <p key={words}>{words}</p>
          ))}
        </div>
      )}
      <div class="title-cells">
        <div class="title-name">
          <p class="title-sheet">
            Sheet {sheetNumber(sheet.value)}, {SHEET_TITLE[sheet.value]}
          </p>
          <p>{openFarm.value!.farm.name}</p>
          <InventedMark />
        </div>
        <div>
          <p class="title-as-on">as on</p>
          <p>
            <time dateTime={on.value}>{showDay(on.value)}</time>
          </p>
        </div>
        <div>{mapView.value && <ScaleBar view={mapView.value} units={units.value} />}</div>
        <div>
          <NorthArrow bearingDeg={mapView.value?.bearingDeg ?? 0} />
        </div>
      </div>
    </section>
  )
}
