"""Sign-in, second factor and open sign-ins: django-allauth's pages. Nobody signs up here."""

from django.urls import include, path

urlpatterns = [path("", include("allauth.urls"))]
