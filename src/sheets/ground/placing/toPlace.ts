import type { Photo } from '../../../../geo/model/photos.ts'
import type { PhotoFile } from '../../../desk/door.ts'

/** What can be placed by points: a picture just chosen, a TIFF too large to be read whole, or a photo of the farm. */
export type ToPlace = readonly PhotoFile[] | { readonly large: readonly File[] } | Photo
