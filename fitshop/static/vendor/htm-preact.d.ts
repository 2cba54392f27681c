// Types of what htm-preact.js hands on: only what the capture pages use.
export type Key = string | number;
export interface VNode { type: unknown; props: Record<string, unknown>; key: Key | null }
export type Children = VNode | string | number | boolean | null | undefined | Children[];
export type FunctionComponent<P = {}> = (props: P & { children?: Children }) => Children;

export declare function h(type: unknown, props: object | null, ...children: Children[]): VNode;
export declare function html(strings: TemplateStringsArray, ...values: unknown[]): VNode;
export declare function render(vnode: Children, parent: Element | DocumentFragment): void;
export declare function hydrate(vnode: Children, parent: Element | DocumentFragment): void;
export declare const Fragment: FunctionComponent;
export declare class Component<P = {}, S = {}> {
  constructor(props?: P);
  props: P & { children?: Children };
  state: S;
  setState(change: Partial<S> | ((state: S, props: P) => Partial<S> | null), done?: () => void): void;
  forceUpdate(done?: () => void): void;
  componentDidMount?(): void;
  componentDidUpdate?(previous: P, state: S): void;
  componentDidCatch?(error: unknown): void;
  componentWillUnmount?(): void;
  render(): Children;
}
export interface Context<T> {
  Provider: FunctionComponent<{ value: T }>;
  Consumer: FunctionComponent<{ children: (value: T) => Children }>;
}
export declare function createContext<T>(initial: T): Context<T>;
export declare function createRef<T>(): { current: T | null };
export declare function toChildArray(children: Children): Array<VNode | string | number>;

export type Setter<S> = (next: S | ((previous: S) => S)) => void;
export declare function useState<S>(initial: S | (() => S)): [S, Setter<S>];
export declare function useState<S = undefined>(): [S | undefined, Setter<S | undefined>];
export declare function useReducer<S, A>(
  reducer: (state: S, action: A) => S, initial: S,
): [S, (action: A) => void];
export declare function useEffect(effect: () => void | (() => void), inputs?: readonly unknown[]): void;
export declare function useLayoutEffect(
  effect: () => void | (() => void), inputs?: readonly unknown[],
): void;
export declare function useRef<T>(initial: T): { current: T };
export declare function useRef<T>(initial: T | null): { current: T | null };
export declare function useMemo<T>(make: () => T, inputs: readonly unknown[]): T;
export declare function useCallback<T extends Function>(callback: T, inputs: readonly unknown[]): T;
export declare function useContext<T>(context: Context<T>): T;
export declare function useId(): string;
