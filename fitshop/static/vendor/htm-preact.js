// The one door to Preact with htm for the capture pages: import { html, render, useState } from here.
// Tagged templates are parsed as text, never evaluated as code, so a strict CSP holds.
import { h } from "./preact.js";
import htm from "./htm.js";

export { h, render, hydrate, Component, Fragment, createContext, createRef, toChildArray } from "./preact.js";
export {
  useState, useReducer, useEffect, useLayoutEffect, useRef, useMemo, useCallback, useContext, useId,
} from "./preact-hooks.js";

export const html = htm.bind(h);
