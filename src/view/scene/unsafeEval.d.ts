/** Ships without types: replaces pixi's run-time code generation, which the page's security policy forbids. */
declare module 'pixi.js/unsafe-eval';
