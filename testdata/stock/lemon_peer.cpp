// Solves transportation problems with LEMON's network simplex (Debian package
// liblemon-dev), as an outside judge and yardstick of the assignment of seats to colours.
//
//   g++ -O2 -o lemon_peer lemon_peer.cpp
//   ./lemon_peer < problems
//
// Each problem: seats, colours, the colours' stock, then the costs seat by seat;
// 2147483647 is a colour that the seat may not take. Each answer is a line: the
// least total cost, or "infeasible", and the seconds that building the
// graph and solving took.
#include <chrono>
#include <cstdio>
#include <vector>

#include <lemon/network_simplex.h>
#include <lemon/smart_graph.h>

typedef lemon::SmartDigraph Graph;
typedef lemon::NetworkSimplex<Graph, int, long long> Simplex;

static const int kNever = 2147483647;

static bool read(int &n) { return std::scanf("%d", &n) == 1; }

int main() {
  int seats, colours;
  while (read(seats)) {
    if (!read(colours)) return 1;
    std::vector<int> stock(colours), cost((size_t)seats * colours);
    for (int &s : stock)
      if (!read(s)) return 1;
    for (int &c : cost)
      if (!read(c)) return 1;

    auto begin = std::chrono::steady_clock::now();
    Graph g;
    g.reserveNode(seats + colours);
    g.reserveArc((int)cost.size());
    std::vector<Graph::Node> colour(colours);
    for (auto &n : colour) n = g.addNode();
    std::vector<int> kept;
    kept.reserve(cost.size());
    std::vector<Graph::Node> seat(seats);
    for (int s = 0; s < seats; s++) {
      seat[s] = g.addNode();
      for (int c = 0; c < colours; c++)
        if (cost[(size_t)s * colours + c] != kNever) {
          g.addArc(seat[s], colour[c]);
          kept.push_back(cost[(size_t)s * colours + c]);
        }
    }
    Graph::ArcMap<long long> costs(g);
    for (Graph::ArcIt a(g); a != lemon::INVALID; ++a) costs[a] = kept[g.id(a)];
    Graph::NodeMap<int> supply(g, 1);
    for (int c = 0; c < colours; c++) supply[colour[c]] = -stock[c];
    Simplex simplex(g);
    // Supplies are met wholly, stocks need not be used up.
    simplex.costMap(costs).supplyMap(supply).supplyType(Simplex::GEQ);
    bool solved = simplex.run() == Simplex::OPTIMAL;
    double took = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    if (solved)
      std::printf("%lld %.6f\n", simplex.totalCost<long long>(), took);
    else
      std::printf("infeasible %.6f\n", took);
  }
}
