/** Version of Fettle; a test holds it to package.json. Part of the job hash: another version may draw another part.
 *  Written out, because reading a JSON module warns in Node 20 and costs a file in the browser. */
export const FETTLE_VERSION = '0.1.0';
