"""Addresses of this room's pages; a page's name is its view's, template's and test's."""

from django.urls import URLPattern, path

from jobs.views.photos import photos, photos_original, photos_shown

urlpatterns: list[URLPattern] = [
    path("photos/", photos, name="photos"),
    path("photos/<str:digest>.jpg", photos_shown, name="photos_shown"),
    path("photos/<str:digest>/original/", photos_original, name="photos_original"),
]
