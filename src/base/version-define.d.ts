/** Set from package.json when the program is bundled. */
declare const __VERSION__: string;
