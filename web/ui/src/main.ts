import { mount } from "svelte";
import { connect } from "./lib/live.svelte";
import App from "./App.svelte";
import "./look/look.css";

connect();
mount(App, { target: document.getElementById("desk")! });
