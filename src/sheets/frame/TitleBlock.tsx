import { CAUTIONS } from '../cautions.ts'
import { SHEET_TITLE, sheetNumber } from '../names.ts'
import { showDay } from '../show/dates.ts'
import { openFarm, units } from '../state/farm.ts'
import { mapView } from '../state/mapHandle.ts'
import { on, sheet } from '../state/where.ts'
import { grounds } from './grounds.ts'
import { NorthArrow } from './NorthArrow.tsx'
import { ScaleBar } from './ScaleBar.tsx'

/** The block at the map's lower right, as on any plan: farm, sheet, day, scale, north, and the cautions that go with it. */
export function TitleBlock() {
  const { entry, farm } = openFarm.value!
  const cautions = CAUTIONS[sheet.value]
  const told = grounds.value
  return (
    <section class="title-block" aria-label="Title block">
      <div class="title-name">
        <p class="title-sheet">
          Sheet {sheetNumber(sheet.value)}, {SHEET_TITLE[sheet.value]}
        </p>
        <p>{farm.name}</p>
        {entry.invented && <p class="invented">Invented: no such farm</p>}
      </div>
      <div class="title-day">
        <p>as on</p>
        <p>
          <time dateTime={on.value}>{showDay(on.value)}</time>
        </p>
      </div>
      <div class="title-scale">{mapView.value && <ScaleBar view={mapView.value} units={units.value} />}</div>
      <div class="title-north">
        <NorthArrow bearingDeg={mapView.value?.bearingDeg ?? 0} />
      </div>
      {(cautions.length > 0 || told !== null) && (
        <div class="title-cautions">
          {told !== null && <p>{told}</p>}
          {cautions.map((caution) => (
            <p key={caution}>{caution}</p>
          ))}
        </div>
      )}
    </section>
  )
}
