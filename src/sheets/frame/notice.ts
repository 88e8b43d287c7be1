import url from '../../NOTICE.txt?url&no-inline'

/** Where the licences of everything built in can be read. */
export const NOTICE_URL = url
