import { Figure } from '../../ui/Figure.tsx'
import { landFigure, showCount, showShare } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { measured } from '../state/shown.ts'
import { BedTable } from './BedTable.tsx'
import { FieldTable } from './FieldTable.tsx'
import { Photos } from './Photos.tsx'

/** The Ground sheet's table: how much ground there is, in which fields and beds, and the photos under it. */
export function GroundPanel() {
  const told = measured.value
  if (!told) return null
  if (told.fields.length === 0)
    return (
      <>
        <div class="first-steps">
          <p>
            <strong>Nothing is drawn yet.</strong> Open an aerial photo of the farm, or go straight on and draw the
            first field: choose <em>Field</em> under the map and put its corners down one after another.
          </p>
          <p>Beds are drawn next, by three clicks: one end, the other end, and the width. Rows and trees follow.</p>
        </div>
        <Photos />
      </>
    )
  const bedM2 = told.fields.reduce((sum, field) => sum + field.bed_area_m2, 0)
  const fieldM2 = told.fields.reduce((sum, field) => sum + field.area_m2, 0)
  const beds = told.fields.reduce((sum, field) => sum + field.bed_count, 0)
  return (
    <>
      <Figure
        {...landFigure(bedM2, units.value)}
        from="Area of the beds that stand on the day shown, each from its outline in the farm’s own plane (transverse Mercator about the farm’s middle). The share is of the fields’ own area. Agrees with geodesic area on the WGS 84 ellipsoid to one part in a million."
      >
        of growing ground in {showCount(beds)} {beds === 1 ? 'bed' : 'beds'},{' '}
        {showShare(fieldM2 > 0 ? bedM2 / fieldM2 : 0)} of the fields
      </Figure>
      <FieldTable fields={told.fields} />
      <BedTable beds={told.beds} fields={told.fields} />
      <Photos />
    </>
  )
}
