#include "sim/app/mpi/ranks.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <climits>
#include <cstdlib>
#include <sstream>
#include <thread>

#include <fmt/format.h>
#include <mpi.h>
#include <sched.h>

#include "sim/app/exit_codes.hpp"

namespace drumlin::app {
namespace {

using namespace std::chrono_literals;

/// The library's own waiting takes a whole core, which others compute on.
void settle(MPI_Request request) {
  for (int there = 0; there == 0;) {
    MPI_Test(&request, &there, MPI_STATUS_IGNORE);
    if (there == 0) std::this_thread::sleep_for(500us);
  }
}

void broadcast(void* bytes, int count, int from) {
  MPI_Request request = MPI_REQUEST_NULL;
  MPI_Ibcast(bytes, count, MPI_BYTE, from, MPI_COMM_WORLD, &request);
  settle(request);
}

int size_of(const std::string& bytes) {
  if (bytes.size() > INT_MAX) throw std::runtime_error("a message of more than 2 GB");
  return static_cast<int>(bytes.size());
}

void broadcast(std::string& text, int from) {
  int size = size_of(text);
  broadcast(&size, sizeof size, from);
  text.resize(static_cast<std::size_t>(size));
  broadcast(text.data(), size, from);
}

}  // namespace

Ranks::Ranks() {
  int given = MPI_THREAD_SINGLE;
  MPI_Init_thread(nullptr, nullptr, MPI_THREAD_FUNNELED, &given);
  if (given < MPI_THREAD_FUNNELED) throw std::runtime_error("this MPI does not allow threads");
  MPI_Comm_rank(MPI_COMM_WORLD, &rank_);
  MPI_Comm_size(MPI_COMM_WORLD, &count_);
}

Ranks::~Ranks() {
  MPI_Finalize();
}

unsigned Ranks::share_of_cores() const {
  MPI_Comm node = MPI_COMM_NULL;
  MPI_Comm_split_type(MPI_COMM_WORLD, MPI_COMM_TYPE_SHARED, rank_, MPI_INFO_NULL, &node);
  int neighbours = 1;
  MPI_Comm_size(node, &neighbours);
  cpu_set_t mine;
  CPU_ZERO(&mine);
  if (sched_getaffinity(0, sizeof mine, &mine) != 0) CPU_SET(0, &mine);
  cpu_set_t all = mine;
  MPI_Allreduce(MPI_IN_PLACE, &all, sizeof all, MPI_BYTE, MPI_BOR, node);
  MPI_Comm_free(&node);
  const int share = std::min(CPU_COUNT(&mine), CPU_COUNT(&all) / neighbours);
  return static_cast<unsigned>(std::max(share, 1));
}

void Ranks::agree(const std::exception_ptr& problem) const {
  std::ostringstream words;
  int code = done;
  if (problem) code = guarded([&]() -> int { std::rethrow_exception(problem); }, words);
  const int mine = problem ? rank_ : count_;
  int first = count_;
  MPI_Request request = MPI_REQUEST_NULL;
  MPI_Iallreduce(&mine, &first, 1, MPI_INT, MPI_MIN, MPI_COMM_WORLD, &request);
  settle(request);
  if (first == count_) return;
  std::string text = words.str();
  if (first == rank_ && rank_ > 0) text = fmt::format("rank {}: {}", rank_, text);
  broadcast(&code, sizeof code, first);
  broadcast(text, first);
  throw Ended(code, text);
}

std::string Ranks::of_rank_0(std::string text) const {
  broadcast(text, 0);
  return text;
}

void Ranks::send(int to, Tag tag, const std::string& bytes) const {
  MPI_Request request = MPI_REQUEST_NULL;
  MPI_Isend(bytes.data(), size_of(bytes), MPI_BYTE, to, static_cast<int>(tag), MPI_COMM_WORLD,
            &request);
  settle(request);
}

std::optional<Message> Ranks::received() const {
  int there = 0;
  MPI_Status status;
  MPI_Iprobe(MPI_ANY_SOURCE, MPI_ANY_TAG, MPI_COMM_WORLD, &there, &status);
  if (there == 0) return std::nullopt;
  int size = 0;
  MPI_Get_count(&status, MPI_BYTE, &size);
  Message message{status.MPI_SOURCE, static_cast<Tag>(status.MPI_TAG),
                  std::string(static_cast<std::size_t>(size), '\0')};
  MPI_Recv(message.bytes.data(), size, MPI_BYTE, status.MPI_SOURCE, status.MPI_TAG, MPI_COMM_WORLD,
           MPI_STATUS_IGNORE);
  return message;
}

void Ranks::abandon(int exit_code) const {
  MPI_Abort(MPI_COMM_WORLD, exit_code);
  std::abort();
}

}  // namespace drumlin::app
