/** The program's version, from package.json; set when it is bundled. */
export const version: string = __VERSION__;
