// Package web is the desk: a local web app over the functions of package study.
//
// In goes a folder of boat files; out comes a server that answers a browser. A page
// asks questions over one socket, each on a lane: on a lane a newer question takes the
// place of an older one, so that dragging always gets the latest answer. Long questions
// are jobs, kept in run folders beside the boats.
//
// The package refuses to know physics, and how numbers become text: answers come from
// study, charts from figure, words from report. It serves nothing from outside of its
// folder, answers nobody from another site, and asks nothing of other machines.
package web
